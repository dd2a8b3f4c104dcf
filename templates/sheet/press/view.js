/*
 * What is to be seen: classes of the keys, layers, reports, the text. An element is written to when what
 * it says has changed, so that a screen reader is told of layers, and not of each frame.
 */
(() => {
    const MOST_REPORTS = 12;
    const FIELD = [96, 54]; /* of press.html.j2 */
    const SCALE = 20; /* steps a unit of it: a field is a screen of 1920 by 1080 */

    const write = (element, text) => {
        if (element.textContent !== text) {
            element.textContent = text;
        }
    };

    const made = (name, className, text) => {
        const element = document.createElement(name);
        element.className = className;
        element.textContent = text;
        return element;
    };

    pressIt.View = class {
        constructor(section, data) {
            this.data = data;
            this.section = section;
            this.buttons = []; /* until the keys can be pressed */
            this.keys = new Map(data.keys.map((key) => [key.name, []]));
            for (const element of document.querySelectorAll("[data-key]")) {
                (this.keys.get(element.dataset.key) || []).push(element);
            }
        }

        part(name) {
            return this.section.querySelector(`[data-press="${name}"]`);
        }

        /* The keys can be pressed: make buttons of them, and show what is about that. */
        begin(area) {
            area.tabIndex = -1;
            area.setAttribute("role", "group");
            area.setAttribute("aria-label", "The keys, to press");
            area.setAttribute("aria-describedby", "press-how");
            this.buttons = [...area.querySelectorAll("[data-key]")];
            for (const button of this.buttons) {
                button.setAttribute("role", "button");
                button.setAttribute("aria-pressed", "false");
            }
            this.part("live").hidden = false;
        }

        /* They cannot. */
        refuse(reason) {
            this.part("reason").hidden = false;
            write(this.part("reason"), reason);
        }

        mark(className, names) {
            for (const [name, elements] of this.keys) {
                for (const element of elements) {
                    element.classList.toggle(className, names.includes(name));
                }
            }
        }

        down(names) {
            this.mark("is-down", names);
            for (const button of this.buttons) {
                const isDown = String(names.includes(button.dataset.key));
                if (button.getAttribute("aria-pressed") !== isDown) {
                    button.setAttribute("aria-pressed", isDown);
                }
            }
        }

        /* Lights that are lit, by their names: a word for all, and a class for those of the pictures. */
        lights(names) {
            if (this.data.lights.length === 0) {
                return;
            }
            write(this.part("lights"), names.length === 0 ? "all dark" : names.join(", "));
            for (const element of document.querySelectorAll('[data-component^="light "]')) {
                element.classList.toggle("is-lit", names.includes(element.dataset.component.slice(6)));
            }
        }

        waiting(numbers) {
            const names = numbers.map((number) => this.data.keys[number].name);
            this.mark("is-undecided", names.slice(0, 1));
            this.mark("is-waiting", names.slice(1));
            write(this.part("undecided"), names.length === 0 ? "none" : names[0]);
        }

        /* Say which layers are on, from the top down; the page is told when they change. */
        layers(numbers) {
            const names = numbers.map((number) => this.data.layers[number]);
            if (this.shown !== names.join()) {
                this.shown = names.join();
                write(this.part("layers"), names.join(", "));
                this.section.dispatchEvent(new CustomEvent("press-layers", { detail: names }));
            }
        }

        report(ms, kind, words, bytes) {
            const log = this.part("log");
            const line = document.createElement("li");
            line.append(
                made("span", "press-time", `${ms} ms`), " ",
                made("span", "press-kind", kind), " ",
                made("span", "press-words", words), " ",
                made("code", "press-bytes", pressIt.hex(bytes)),
            );
            log.prepend(line);
            while (log.children.length > MOST_REPORTS) {
                log.lastElementChild.remove();
            }
        }

        /* Where the pointer is by now, from where it began, as on a field whose edges meet. */
        pointer({ total, buttons }) {
            const place = this.part("pointer");
            if (place === null) {
                return;
            }
            const [right, down, wheel, pan] = total;
            const [width, height] = FIELD;
            const within = (steps, size) => (((steps / SCALE + size / 2) % size) + size) % size;
            place.setAttribute("cx", String(within(right, width)));
            place.setAttribute("cy", String(within(down, height)));
            place.classList.toggle("is-down", buttons !== 0);
            const held = pressIt.buttonsOf([0, buttons]).join(", ") || "no button";
            const steps = `${right} to the right, ${down} down`;
            write(this.part("moved"), `${steps}; wheel ${wheel} up, ${pan} to the right; ${held} down`);
        }

        text({ before, after, capsLock, numLock }) {
            write(this.part("before"), before);
            write(this.part("after"), after);
            const state = (isOn) => (isOn ? "on" : "off");
            write(this.part("locks"), `Caps Lock ${state(capsLock)}, Num Lock ${state(numLock)}`);
        }

        message(text) {
            write(this.part("message"), text);
        }
    };
})();
