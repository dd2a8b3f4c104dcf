"use strict";
(() => {
  // The place in the page outlasts a new drawing: the section at the top of the window stays where it is,
  // whatever appears above it. A page of words alone has no sections, and leaves what is kept as it is.
  const drawing = document.querySelector("meta[name=drawing]").content;
  const store = `${location.pathname}place`;
  const sections = [...document.querySelectorAll("main > section:not(.findings)")];
  const buttons = [...document.querySelectorAll("input[name=layer]")];
  const stepping = document.getElementById("one-wire");
  const nameOf = (section) => section.getAttribute("aria-labelledby");

  const keep = () => {
    if (!sections.length) return;
    const at = sections.find((one) => one.getBoundingClientRect().bottom > 0);
    const layer = buttons.find((one) => one.checked);
    const place = {
      x: scrollX,
      y: scrollY,
      section: at && nameOf(at),
      top: at && at.getBoundingClientRect().top,
      layer: layer && layer.value,
      stepping: stepping !== null && stepping.checked,
    };
    try { sessionStorage.setItem(store, JSON.stringify(place)); } catch { /* it keeps nothing */ }
  };

  const choose = (button) => {
    button.checked = true;
    button.dispatchEvent(new Event("change"));
  };

  const goBack = () => {
    let kept = null;
    try { kept = JSON.parse(sessionStorage.getItem(store)); } catch { /* nothing was kept */ }
    if (!kept || !sections.length) return;
    const button = buttons.find((one) => one.value === kept.layer);
    if (button) choose(button);
    if (stepping && kept.stepping) choose(stepping);
    const at = kept.y > 0 && sections.find((one) => nameOf(one) === kept.section);
    const y = at ? Math.max(0, scrollY + at.getBoundingClientRect().top - kept.top) : kept.y;
    // What the keys are pressed in gets its height later.
    document.documentElement.style.minHeight = `${y + innerHeight}px`;
    scrollTo(kept.x, y);
  };

  history.scrollRestoration = "manual";
  goBack();
  addEventListener("pagehide", keep);

  const lost = document.getElementById("unfollowed");
  const events = new EventSource("events");
  events.addEventListener("open", () => { lost.hidden = true; });
  events.addEventListener("error", () => { lost.hidden = false; });
  events.addEventListener("message", ({ data }) => {
    if (data === drawing) return;
    events.close();
    location.reload();
  });
})();
