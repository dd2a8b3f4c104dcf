/*
 * Who holds which key down: pointers, the computer's own keys, clicks that stay. A key that several hold
 * is up when the last of them lets go.
 */
(() => {
    const ESCAPES_MS = 1000; /* two within so long give the computer's keys back */

    pressIt.Fingers = class {
        /* `move` is told of a key by its name, and whether it went down. */
        constructor(move) {
            this.move = move;
            this.holds = new Map(); /* who: the key */
        }

        /* The keys that are down. */
        down() {
            return [...this.holds.values()];
        }

        isDown(key) {
            return this.down().includes(key);
        }

        hold(who, key) {
            this.letGo(who);
            const isNews = !this.isDown(key);
            this.holds.set(who, key);
            if (isNews) {
                this.move(key, true);
            }
        }

        letGo(who) {
            const key = this.holds.get(who);
            if (this.holds.delete(who) && !this.isDown(key)) {
                this.move(key, false);
            }
        }

        /* All whose name begins with `what`: everyone, if it is not given. */
        letAllGo(what = "") {
            for (const who of [...this.holds.keys()]) {
                if (who.startsWith(what)) {
                    this.letGo(who);
                }
            }
        }

        toggle(who, key) {
            if (this.holds.has(who)) {
                this.letGo(who);
            } else {
                this.hold(who, key);
            }
        }
    };

    const keyOf = (event) => {
        const element = event.target.closest && event.target.closest("[data-key]");
        return element ? element.dataset.key : undefined;
    };

    /* The pointer stays the key's, wherever it goes; none but a made-up event is refused that. */
    const capture = (event) => {
        try {
            event.target.setPointerCapture(event.pointerId);
        } catch (error) {
            if (error.name !== "NotFoundError") {
                throw error;
            }
        }
    };

    /* Mouse, pen and any number of fingers; with the box `stay` ticked, a click is down until the next. */
    const listenToPointers = (area, fingers, stay) => {
        area.addEventListener("pointerdown", (event) => {
            const key = keyOf(event);
            if (key === undefined || event.button !== 0) {
                return;
            }
            if (stay.checked) {
                fingers.toggle(`click ${key}`, key);
                return;
            }
            capture(event);
            fingers.hold(`pointer ${event.pointerId}`, key);
        });
        for (const ends of ["pointerup", "pointercancel", "lostpointercapture"]) {
            window.addEventListener(ends, (event) => fingers.letGo(`pointer ${event.pointerId}`));
        }
        const keep = (event) => {
            if (keyOf(event) !== undefined) {
                event.preventDefault();
            }
        };
        /* On a key, a finger that moves scrolls no page, and one that rests wants no menu. */
        area.addEventListener("touchstart", keep, { passive: false });
        area.addEventListener("contextmenu", keep);
        area.style.userSelect = "none";
        area.style.webkitUserSelect = "none";
        stay.addEventListener("change", () => fingers.letAllGo("click "));
    };

    /*
     * Space and Enter press the key that has the focus. With the box `take` ticked, the computer's keys
     * press the board's, while the focus is in the area.
     */
    const ComputerKeys = class {
        constructor(fingers, take, computer) {
            this.fingers = fingers;
            this.take = take;
            this.computer = computer;
            this.last = { code: "", at: 0 };
        }

        down(event) {
            const key = this.keyFor(event);
            if (key !== undefined) {
                event.preventDefault();
            }
            if (event.repeat) {
                return;
            }
            if (this.take.checked && this.leavesAt(event)) {
                this.giveBack();
                return;
            }
            this.last = { code: event.code, at: event.timeStamp };
            if (key !== undefined) {
                this.fingers.hold(`code ${event.code}`, key);
            }
        }

        keyFor(event) {
            if (this.take.checked) {
                return this.computer[event.code];
            }
            return event.code === "Space" || event.code === "Enter" ? keyOf(event) : undefined;
        }

        up(event) {
            this.fingers.letGo(`code ${event.code}`);
            if (event.key === "Meta") {
                this.letAllGo(); /* macOS tells of no other release meanwhile, from memory */
            }
        }

        letAllGo() {
            this.fingers.letAllGo("code ");
        }

        /* Escape twice, and nothing between. */
        leavesAt({ code, timeStamp }) {
            const { last } = this;
            return code === "Escape" && last.code === "Escape" && timeStamp - last.at < ESCAPES_MS;
        }

        giveBack() {
            this.take.checked = false;
            this.letAllGo();
            this.take.focus();
        }
    };

    const listenToKeys = (area, keys) => {
        area.addEventListener("keydown", (event) => keys.down(event));
        window.addEventListener("keyup", (event) => keys.up(event));
        area.addEventListener("focusout", (event) => {
            if (!area.contains(event.relatedTarget)) {
                keys.letAllGo();
            }
        });
        keys.take.addEventListener("change", () => {
            keys.letAllGo();
            if (keys.take.checked) {
                area.focus();
            }
        });
    };

    /* Let all that happens in the area move keys. */
    pressIt.listen = (area, fingers, { take, stay }, computer) => {
        listenToPointers(area, fingers, stay);
        listenToKeys(area, new ComputerKeys(fingers, take, computer));
        window.addEventListener("blur", () => fingers.letAllGo());
        document.addEventListener("visibilitychange", () => {
            if (document.hidden) {
                fingers.letAllGo();
            }
        });
    };
})();
