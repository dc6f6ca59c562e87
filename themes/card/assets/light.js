"use strict";
/*
 * Low light, before anything is painted: this file stands first in the head and is waited for, so that a page is
 * near-black from its first paint. The choice is kept in this browser; light-switch.js changes it.
 */
(function (root) {
  const KEY = "trayside-light";
  const META = "meta[name=color-scheme]";

  /** "red", "amber", or "" for the page's own colours. */
  const kept = () => {
    try {
      const found = root.localStorage.getItem(KEY);
      return found === "red" || found === "amber" ? found : "";
    } catch {
      return ""; // refused: the page works, it only forgets
    }
  };

  /** Mark a page, this one or one about to be written in its place, with a light. */
  const dress = (page, light = kept()) => {
    if (light) page.documentElement.dataset.light = light;
    else delete page.documentElement.dataset.light;
    page.querySelector(META)?.setAttribute("content", light ? "dark" : "light dark");
  };

  /** Mark this page; its ground is black before the style sheets have come, also between two pages. */
  const apply = (light = kept()) => {
    dress(document, light);
    document.documentElement.style.backgroundColor = light ? "#000" : "";
    document.querySelector("meta[name=theme-color]")?.remove();
    if (!light) return;
    const bar = document.createElement("meta");
    bar.name = "theme-color";
    bar.content = "#000";
    document.head.append(bar);
  };

  /** Change the light and keep it; every open page follows. */
  const change = (light) => {
    try {
      if (light) root.localStorage.setItem(KEY, light);
      else root.localStorage.removeItem(KEY);
    } catch {
      // refused: it holds for this page
    }
    apply(light);
  };

  root.traysideLight = Object.freeze({ KEY, apply, change, dress, kept });
  apply();
  root.addEventListener("pageshow", (event) => event.persisted && apply());
  root.addEventListener("storage", (event) => event.key === KEY && apply());
})(globalThis);
