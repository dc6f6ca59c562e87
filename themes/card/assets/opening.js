"use strict";
/*
 * Opening: a sealed edition, read with a passphrase, from a disk or a host, without a request to anyone else.
 *
 * A page is opened by its name (`index.html?name#place`), decrypted by `unsealing.js`, its links and pictures
 * turned to names and blobs, and written in place of this one, so that the address bar, the back button and the
 * calculators' address hash work as in an open edition. The host sees names only.
 */
(function (root) {
  const { Told, base64Of, bytesOf, file, keysOf, nameOf, text8, unwrap } = root.traysideUnsealing;
  const HOME = "index.html";
  const WRONG = "Those words do not open this edition. Look for a missing or misspelt word; they may also have been changed since.";
  const BARE = "This browser only opens sealed pages from the disk or over https. Open the address with https.";

  const blobOf = ({ data, type }) => URL.createObjectURL(new Blob([data], { type }));

  /** The path within the edition that a relative link means on a page, or null for every other address. */
  const within = (link, page) => {
    if (!link || /^(#|\?|\/|[a-z][a-z0-9+.-]*:)/i.test(link)) return null;
    const { pathname, hash } = new URL(link, `https://edition.invalid/${page}`);
    return { path: decodeURIComponent(pathname.slice(1)), hash };
  };

  const start = async (raw, about, shelf) => {
    const keys = await keysOf(raw);
    const open = new Map();

    /** The address of a file that a page loads: as it lies where it is not sealed, else a blob, made once. */
    const addressOf = (path) => {
      if (about.clear.includes(path)) return path;
      if (!open.has(path)) open.set(path, nameOf(path, keys).then((name) => file(name, keys)).then(blobOf));
      return open.get(path);
    };
    root.traysideAddressOf = async (path) => addressOf(path); // for scripts that load more, such as the search

    const wayTo = async ({ path, hash }) =>
      (path === HOME ? root.location.pathname : `?${await nameOf(path, keys)}`) + hash;

    /** Of several sizes of a picture, the one for this window is opened and no other. */
    const turnSizes = async (element, page) => {
      const sizes = (element.getAttribute("srcset") ?? "").split(",").map((each) => each.trim().split(/\s+/));
      const wide = (size) => parseInt(size[1] ?? "0", 10);
      const needed = root.innerWidth * root.devicePixelRatio;
      const rising = sizes.sort((a, b) => wide(a) - wide(b));
      const [address] = rising.find((size) => wide(size) >= needed) ?? rising.at(-1);
      const meant = within(address, page);
      if (meant) element.setAttribute("src", await addressOf(meant.path));
      element.removeAttribute("srcset");
    };

    /** Turn what an element links to or loads, seen from a page of the edition. */
    const turn = async (element, page) => {
      if (element.matches("link:not([rel=stylesheet], [rel=icon])")) {
        element.remove(); // feeds and the like are for programs, which have no passphrase
        return;
      }
      if (element.matches("[srcset]")) {
        await turnSizes(element, page);
        return;
      }
      const attribute = element.matches("a, link") ? "href" : "src";
      const meant = within(element.getAttribute(attribute), page);
      if (!meant) return;
      if (element.matches("a")) {
        if (!meant.path.endsWith(".html")) element.dataset.file = meant.path;
        element.setAttribute("href", await wayTo(meant));
      } else {
        element.setAttribute(attribute, await addressOf(meant.path));
      }
    };

    const save = async (path) => {
      const link = document.createElement("a");
      link.href = await addressOf(path);
      link.download = path.split("/").slice(-2).join("-");
      link.click();
    };

    /** What scripts of the page add later is turned as well; they write links from the edition's root. */
    const watch = () => {
      new MutationObserver((changes) => {
        for (const { target, addedNodes, type } of changes) {
          const added = type === "attributes" ? [target] : [...addedNodes].filter((node) => node.nodeType === 1);
          const every = added.flatMap((node) => [node, ...node.querySelectorAll("a, img")]);
          for (const element of every) if (element.matches("a, img")) turn(element, "").catch(fail);
        }
      }).observe(document.documentElement, {
        subtree: true, childList: true, attributes: true, attributeFilter: ["href", "src"],
      });
      document.addEventListener("click", (event) => {
        const link = event.target.closest?.("a[data-file]");
        if (!link) return;
        event.preventDefault();
        save(link.dataset.file).catch(fail);
      });
    };

    const closing = () => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "Close this edition";
      button.addEventListener("click", () => {
        shelf.forget();
        root.location.assign(root.location.pathname);
      });
      document.querySelector(".foot")?.append(button);
    };

    const parsed = () => new Promise((resolve) => {
      if (document.readyState !== "loading") resolve();
      else document.addEventListener("DOMContentLoaded", () => resolve(), { once: true });
    });

    const arrive = () => {
      const place = decodeURIComponent(root.location.hash.slice(1));
      if (place && document.getElementById(place)) root.location.replace(root.location.hash);
    };

    const show = async ({ path, data }) => {
      const page = new DOMParser().parseFromString(text8(data), "text/html");
      // This page's own policy stays in force; the one inside would forbid blobs.
      page.querySelector("meta[http-equiv=Content-Security-Policy]")?.remove();
      page.documentElement.dataset.root = "";
      root.traysideLight.dress(page);
      for (const source of page.querySelectorAll("picture > source")) {
        source.parentElement.querySelector("img").setAttribute("srcset", source.getAttribute("srcset"));
        source.remove();
      }
      await Promise.all([...page.querySelectorAll("[href], [src], [srcset]")].map((element) => turn(element, path)));
      document.open();
      document.write(`<!DOCTYPE html>\n${page.documentElement.outerHTML}`);
      document.close();
      watch();
      await parsed(); // a long page, or one with a script in its way, is not all there yet
      closing();
      arrive();
    };

    const offer = ({ path }) => {
      const link = document.createElement("a");
      link.href = "?";
      link.textContent = `Save ${path.split("/").at(-1)}`;
      link.addEventListener("click", (event) => {
        event.preventDefault();
        save(path).catch(fail);
      });
      const place = document.getElementById("file");
      place.replaceChildren(link);
      place.hidden = false;
    };

    const asked = root.location.hash;
    if (asked.startsWith("#/")) {
      const meant = within(asked.slice(2) || HOME, "");
      if (meant) root.history.replaceState(null, "", await wayTo(meant));
    }
    const name = root.location.search.slice(1) || (await nameOf(HOME, keys));
    const found = await file(name, keys);
    if (found.type === "text/html") await show(found);
    else offer(found);
  };

  const fail = (error) => {
    const said = document.getElementById("said");
    const words = error instanceof Told ? error.message : `This page could not be opened: ${error.message}`;
    document.getElementById("working")?.setAttribute("hidden", "");
    if (!said) {
      root.alert(words);
      return;
    }
    said.textContent = words;
    said.hidden = false;
  };

  /** Where the keys stay while the reader moves from page to page: this tab, or this device if asked. */
  const shelfOf = (about) => {
    const place = `trayside-open-${about.edition}`;
    const stores = () => [root.sessionStorage, root.localStorage];
    const quietly = (action) => {
      try {
        return action();
      } catch {
        return null; // storage is refused: every page asks again
      }
    };
    return {
      recall: () => quietly(() => {
        const kept = stores().map((store) => store.getItem(place)).find(Boolean);
        const { made, raw } = JSON.parse(kept ?? "{}");
        return made === about.copies[0].salt ? bytesOf(raw) : null;
      }),
      keep: (raw, always) => quietly(() => {
        const kept = JSON.stringify({ made: about.copies[0].salt, raw: base64Of(raw) });
        (always ? root.localStorage : root.sessionStorage).setItem(place, kept);
      }),
      forget: () => quietly(() => stores().forEach((store) => store.removeItem(place))),
    };
  };

  const ask = (about, shelf) => {
    const form = document.getElementById("opening");
    const field = document.getElementById("passphrase");
    const working = document.getElementById("working");
    const said = document.getElementById("said");
    const button = form.querySelector("button");

    const attempt = async () => {
      const raw = await unwrap(field.value, about.copies);
      if (!raw) throw new Told(WRONG);
      shelf.keep(raw, document.getElementById("kept").checked);
      await start(raw, about, shelf);
    };

    form.addEventListener("submit", (event) => {
      event.preventDefault();
      said.hidden = true;
      working.textContent = "Opening. This takes a moment on purpose.";
      working.hidden = false;
      button.disabled = true;
      attempt().catch(fail).finally(() => {
        button.disabled = false;
        working.hidden = true;
      });
    });
    document.getElementById("shown").addEventListener("change", (event) => {
      field.type = event.target.checked ? "text" : "password";
    });
    form.hidden = false;
    field.focus();
  };

  const block = document.getElementById("keys");
  if (block) {
    const about = JSON.parse(block.textContent);
    const shelf = shelfOf(about);
    if (!root.crypto?.subtle) fail(new Told(BARE));
    else {
      const raw = shelf.recall();
      if (raw) start(raw, about, shelf).catch(fail);
      else ask(about, shelf);
    }
  }
})(globalThis);
