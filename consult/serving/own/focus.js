// The terminal takes keys as soon as something stands on it, without a click first.
addEventListener("DOMContentLoaded", () => {
  new MutationObserver((_, watch) => {
    if (document.body.classList.contains("-first-byte")) {
      watch.disconnect();
      document.querySelector(".xterm-helper-textarea")?.focus();
    }
  }).observe(document.body, { attributeFilter: ["class"] });
});
