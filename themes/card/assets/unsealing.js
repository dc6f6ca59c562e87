"use strict";
/*
 * Unsealing: passphrase to keys, keys to names, containers to files. Twin of sitegen/sealing: labels, normal form and
 * layout are fixed there. Nothing is shown here; `opening.js` does that.
 *
 * Every file lies in sealed/<name>.js, a classic script that hands over its bytes as text: over file:// a page
 * may load scripts but fetch nothing.
 */
(function (root) {
  const BETWEEN = /[ \t\r\n\f\v\-\u2010-\u2015]+/gu;
  const NAME = /^[a-z2-7]{24}$/;
  const LETTERS = "abcdefghijklmnopqrstuvwxyz234567";
  const NAME_BYTES = 15;
  const NONCE_BYTES = 12;
  const KEY_BYTES = 32;

  const utf8 = (text) => new TextEncoder().encode(text);
  const text8 = (bytes) => new TextDecoder().decode(bytes);
  const bytesOf = (base64) => Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  const base64Of = (bytes) => btoa(String.fromCharCode(...bytes));

  /** Something a reader can be told in one sentence. */
  class Told extends Error {}
  const DAMAGED = "This file was changed or damaged after it was sealed, so it is not shown. Ask for a fresh copy.";
  const MISSING = "A file of this edition is missing here, or it was compiled anew since this address was noted.";

  /** The passphrase as it is compared: small letters, one blank between words. */
  const normal = (typed) => typed.normalize("NFKC").toLowerCase().replace(BETWEEN, " ").replace(/^ +| +$/g, "");

  const decrypt = (key, nonce, sealed, label) =>
    crypto.subtle.decrypt({ name: "AES-GCM", iv: nonce, additionalData: utf8(label) }, key, sealed);

  /** So many bits from a secret text, by PBKDF2-HMAC-SHA256. */
  const stretch = async (text, salt, rounds, bits) => {
    const secret = await crypto.subtle.importKey("raw", utf8(text), "PBKDF2", false, ["deriveBits"]);
    return crypto.subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt, iterations: rounds }, secret, bits);
  };

  const cipherOf = (raw) => crypto.subtle.importKey("raw", raw, "AES-GCM", false, ["decrypt"]);

  /** The raw keys under a passphrase, or null where it opens none of the copies. */
  const unwrap = async (typed, copies) => {
    for (const copy of copies) {
      const raw = await stretch(normal(typed), bytesOf(copy.salt), copy.rounds, 8 * KEY_BYTES);
      const key = await cipherOf(raw);
      try {
        return new Uint8Array(await decrypt(key, bytesOf(copy.nonce), bytesOf(copy.sealed), "trayside key 1"));
      } catch {
        // another passphrase's copy
      }
    }
    return null;
  };

  const keysOf = async (raw) => ({
    content: await cipherOf(raw.slice(0, KEY_BYTES)),
    names: await crypto.subtle.importKey(
      "raw", raw.slice(KEY_BYTES), { name: "HMAC", hash: "SHA-256" }, false, ["sign"]),
  });

  /** Base32 in small letters, as RFC 4648 groups bits; 15 bytes need no filling up. */
  const base32 = (bytes) => {
    const bits = [...bytes].map((byte) => byte.toString(2).padStart(8, "0")).join("");
    return bits.match(/.{5}/g).map((five) => LETTERS[parseInt(five, 2)]).join("");
  };

  const nameOf = async (path, keys) => {
    const digest = new Uint8Array(await crypto.subtle.sign("HMAC", keys.names, utf8(path)));
    return base32(digest.slice(0, NAME_BYTES));
  };

  /* Containers hand themselves over by name; whoever waits for one is told. */
  const waiting = new Map();
  root.traysideSealed = (name, text) => waiting.get(name)?.(text);

  const handedOver = (name) => new Promise((resolve, reject) => {
    if (!NAME.test(name)) throw new Told(MISSING);
    const script = document.createElement("script");
    waiting.set(name, resolve);
    script.src = `sealed/${name}.js`;
    script.onerror = () => reject(new Told(MISSING));
    script.onload = () => {
      script.remove();
      reject(new Told(DAMAGED)); // without effect where it has been handed over
    };
    document.head.append(script);
  });

  /** A file of the edition: its path, its type, its bytes. */
  const file = async (name, keys) => {
    const text = await handedOver(name);
    waiting.delete(name);
    try {
      const container = bytesOf(text);
      const sealed = container.subarray(NONCE_BYTES);
      const plain = await decrypt(keys.content, container.subarray(0, NONCE_BYTES), sealed, `trayside file 1 ${name}`);
      const start = 4 + new DataView(plain).getUint32(0);
      const head = JSON.parse(text8(plain.slice(4, start)));
      return { path: head.path, type: head.type, data: plain.slice(start, start + head.size) };
    } catch {
      throw new Told(DAMAGED);
    }
  };

  root.traysideUnsealing = Object.freeze({
    Told, base64Of, bytesOf, cipherOf, decrypt, file, keysOf, nameOf, normal, stretch, text8, unwrap,
  });
})(globalThis);
