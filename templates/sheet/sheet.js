"use strict";
(() => {
  const facts = JSON.parse(document.getElementById("facts").textContent);
  const all = (selector) => [...document.querySelectorAll(selector)];

  // One layer at a time on the screen; print shows them all.
  const show = (name) =>
    all("figure.layer").forEach((one) => { one.hidden = one.dataset.layer !== name; });
  all("fieldset.choice").forEach((one) => { one.hidden = false; });
  all("input[name=layer]").forEach((button) => {
    button.addEventListener("change", () => show(button.value));
    if (button.checked) show(button.value);
  });

  // What is known of the key that is pointed at.
  const about = document.getElementById("about-key");
  const wire = (kind, [name, pin, colour]) => `${kind} ${name}${pin && `, pin ${pin}`}, ${colour}`;
  const tell = (name) => {
    const { wires, layers } = facts[name];
    const does = layers.map(([layer, phrase]) => `${layer}: ${phrase}`);
    const ends = ["row", "column"].filter((kind) => wires[kind]).map((kind) => wire(kind, wires[kind]));
    about.textContent = [name, ...ends, ...does].join(" · ");
  };
  all("figure.layer svg").forEach((picture) => pressIt.roam(picture));
  about.hidden = false;
  all("figure.layer .key").forEach((key) => {
    ["pointerenter", "focus"].forEach((event) =>
      key.addEventListener(event, () => tell(key.dataset.key)));
  });

  // The caps of the live picture show, and its labels say, what each key would do now.
  const live = document.querySelector("[data-press=section]");
  const capOn = (layer, key) =>
    document.querySelector(`[data-layer="${CSS.escape(layer)}"] [data-key="${CSS.escape(key)}"]`);
  live.addEventListener("press-layers", ({ detail: layers }) => {
    live.querySelectorAll("svg [data-key]").forEach((key) => {
      const giving = layers.find((layer) => capOn(layer, key.dataset.key).classList.contains("given"));
      const cap = capOn(giving || layers[layers.length - 1], key.dataset.key);
      key.querySelectorAll(".cap-text").forEach((line) => line.remove());
      const lines = [...cap.querySelectorAll(".cap-text")].map((line) => line.cloneNode(true));
      key.querySelector("g").prepend(...lines);
      key.setAttribute("aria-label", cap.getAttribute("aria-label"));
    });
  });

  // Ticks are kept by the browser, if it lets a page keep anything.
  const store = `${document.title}/ticks`;
  const ticks = all("input[data-tick]");
  const kept = (() => {
    try { return JSON.parse(localStorage.getItem(store)) || {}; } catch { return {}; }
  })();
  const keep = () => { try { localStorage.setItem(store, JSON.stringify(kept)); } catch { /* none */ } };
  ticks.forEach((tick) => {
    tick.checked = kept[tick.dataset.tick] === true;
    tick.addEventListener("change", () => {
      if (tick.checked) kept[tick.dataset.tick] = true; else delete kept[tick.dataset.tick];
      keep();
      draw();
    });
  });

  // Step by step: one wire in full, those that are done faint, the others almost gone.
  const steps = all("input[data-wire]");
  const stepping = document.getElementById("one-wire");
  const [back, on, text] = ["step-back", "step-on", "step-text"].map((id) => document.getElementById(id));
  let now = 0;
  const draw = () => {
    if (!stepping) return;
    const is = stepping.checked;
    all("svg.back").forEach((picture) => picture.classList.toggle("stepping", is));
    const done = new Set(steps.filter((tick) => tick.checked).map((tick) => tick.dataset.wire));
    all("svg.back [data-wire]").forEach((one) => {
      one.classList.toggle("is-done", done.has(one.dataset.wire));
      one.classList.toggle("is-now", is && one.dataset.wire === steps[now].dataset.wire);
    });
    steps.forEach((tick, place) => tick.closest("li").classList.toggle("is-now", is && place === now));
    back.disabled = !is || now === 0;
    on.disabled = !is || now === steps.length - 1;
    text.textContent = is ? steps[now].closest("li").textContent.trim().replace(/\s+/g, " ") : "";
  };
  if (stepping && steps.length) {
    document.getElementById("steps").hidden = false;
    stepping.addEventListener("change", () => {
      now = Math.max(0, steps.findIndex((tick) => !tick.checked));
      draw();
    });
    back.addEventListener("click", () => { now -= 1; draw(); });
    on.addEventListener("click", () => { now += 1; draw(); });
    draw();
  }
})();
