"""Mutation testing on demand: does a test fail when the program is changed a little?"""
