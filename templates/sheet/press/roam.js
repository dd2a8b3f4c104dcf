/*
 * A picture of keys is one stop of the Tab key: arrow keys go from key to key in it, Home and End to the
 * first and the last. One key at a time has tabindex 0, the one that had the focus last.
 */
(() => {
    const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

    const middle = (element) => {
        const box = element.getBoundingClientRect();
        return [box.left + box.width / 2, box.top + box.height / 2];
    };

    /* The nearest key that way: what lies to the side counts double. */
    const next = (keys, from, [across, down]) => {
        const [x, y] = middle(from);
        let found = from;
        let least = Infinity;
        for (const key of keys) {
            const [otherX, otherY] = middle(key);
            const ahead = (otherX - x) * across + (otherY - y) * down;
            const aside = Math.abs((otherX - x) * down) + Math.abs((otherY - y) * across);
            if (ahead > 1 && aside <= ahead && ahead + 2 * aside < least) {
                least = ahead + 2 * aside;
                found = key;
            }
        }
        return found;
    };

    pressIt.roam = (picture) => {
        const keys = [...picture.querySelectorAll("[data-key]")];
        const choose = (chosen) => {
            for (const key of keys) {
                key.setAttribute("tabindex", key === chosen ? "0" : "-1");
            }
        };
        choose(keys[0]);
        picture.addEventListener("focusin", (event) => {
            const key = event.target.closest("[data-key]");
            if (key) {
                choose(key);
            }
        });
        picture.addEventListener("keydown", (event) => {
            const from = event.target.closest("[data-key]");
            if (!from || event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) {
                return;
            }
            const ends = { Home: keys[0], End: keys[keys.length - 1] };
            const to = ends[event.key] || (WAYS[event.key] && next(keys, from, WAYS[event.key]));
            if (to) {
                event.preventDefault();
                to.focus();
            }
        });
    };
})();
