// What is folded opens on a screen with room for it, and for print.
(() => {
  "use strict";
  const folded = what => [...document.querySelectorAll(`details${what}:not([open])`)];
  if (matchMedia("(min-width: 40rem)").matches) for (const one of folded(".roomy")) one.open = true;
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = folded("");
    for (const one of opened) one.open = true;
  });
  addEventListener("afterprint", () => { for (const one of opened) one.open = false; });
})();
