"use strict";
/*
 * What is written on a bottle: the batch code of a mixture with the day it was mixed, and its last day. Without this
 * file the page says in words how the code is put together. Months are those of the calendar, as in compute/use_by.py.
 */
(function () {
  const two = (number) => String(number).padStart(2, "0");
  const written = (day) => `${String(day.getFullYear()).padStart(4, "0")}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;

  /** The day so many months later, or the last of its month where it has no such day. */
  const later = (day, months) => {
    const last = new Date(day.getFullYear(), day.getMonth() + months + 1, 0).getDate();
    return new Date(day.getFullYear(), day.getMonth() + months, Math.min(day.getDate(), last));
  };

  const lastDay = (day, { days, months }) => {
    if (Number(months)) return later(day, Number(months));
    return Number(days) ? new Date(day.getFullYear(), day.getMonth(), day.getDate() + Number(days)) : null;
  };

  for (const place of document.querySelectorAll("[data-batch]")) {
    const field = place.querySelector("input");
    const said = place.querySelector("output");
    const tell = () => {
      const [year, month, date] = field.value.split("-").map(Number);
      if (!date) {
        said.textContent = "";
        return;
      }
      const day = new Date(year, month - 1, date);
      const end = lastDay(day, place.dataset);
      said.replaceChildren(Object.assign(document.createElement("strong"), { textContent: place.dataset.batch + written(day) }));
      if (end) said.append(` · use by ${written(end)}`);
    };
    field.value = written(new Date());
    field.addEventListener("input", tell);
    place.querySelector(".batch-asked").hidden = false;
    place.querySelector(".batch-words").hidden = true;
    tell();
  }
})();
