/*
 * All of it together: switches that move, time that passes, what is shown of both.
 */
(() => {
    const MOST_MS = 250; /* a page that slept, as a hidden one does, has not typed meanwhile */
    const LEFT =
        "The keyboard has started its boot loader, and does nothing until it is plugged in again.";

    pressIt.Board = class {
        constructor(data, engine, view) {
            this.data = data;
            this.engine = engine;
            this.view = view;
            this.fingers = new pressIt.Fingers((key, isDown) => this.move(key, isDown));
            this.knobs = new pressIt.Knobs(data.knobs || []);
            this.text = new pressIt.Text(data.types);
            this.crossings = new Map(data.keys.map((key) => [key.name, key.crossing]));
            this.ms = 0;
            this.runs = false;
            this.startPointer();
            this.show();
        }

        startPointer() {
            this.pointer = new pressIt.Movement((ms, words, report) =>
                this.view.report(ms, "pointer", words, report));
        }

        move(key, isDown) {
            const crossing = this.crossings.get(key);
            this.catchUp();
            if (crossing) {
                this.engine.move(crossing, isDown);
            }
            this.show();
        }

        /* Turn a knob, to the left by steps below 0; it takes as long as its states. */
        turn(number, steps) {
            this.catchUp();
            this.knobs.turn(number, steps);
        }

        /* Let the time pass that has gone by since it was last looked at, in whole milliseconds. */
        catchUp(now = performance.now()) {
            const gone = Math.floor(now - this.seen);
            if (this.runs && gone > 0) {
                this.seen += gone;
                this.pass(Math.min(gone, MOST_MS));
            }
        }

        /* Let so many milliseconds pass. */
        pass(milliseconds) {
            for (let left = milliseconds; left > 0 && !this.engine.hasLeft; left--) {
                this.knobs.tick((number, contacts) => this.engine.knob(number, contacts));
                const { report, media } = this.engine.tick();
                this.ms++;
                this.pointer.pass(this.ms);
                this.told(report, media);
            }
            this.show();
        }

        told(report, media) {
            if (report) {
                this.text.take(report);
                this.engine.hear(this.text.leds);
                this.view.report(this.ms, "keyboard", pressIt.wordsOf(this.data, report), report);
            }
            if (media && pressIt.isOfPointer(media)) {
                this.pointer.take(media, this.ms);
            } else if (media) {
                this.view.report(this.ms, "media", pressIt.mediaWordsOf(this.data, media), media);
            }
        }

        show() {
            this.view.down(this.fingers.down());
            this.view.layers(this.engine.layers());
            this.view.lights(this.data.lights.filter((name, number) => this.engine.lit(number)));
            this.view.waiting(this.engine.waiting());
            this.view.text(this.text);
            this.view.pointer(this.pointer);
            this.view.message(this.message());
        }

        message() {
            if (this.engine.hasLeft) {
                return LEFT;
            }
            const nowhere = this.fingers.down().find((key) => !this.crossings.get(key));
            return nowhere ? `${nowhere} has no row and no column to meet yet: it does nothing.` : "";
        }

        /* Unplug it and plug it in again: fingers let go, the text stays. */
        restart() {
            this.fingers.letAllGo();
            this.text.unplug();
            this.knobs.stop();
            this.engine.start();
            this.engine.hear(this.text.leds);
            this.ms = 0;
            this.startPointer();
            this.show();
        }

        clear() {
            this.text.clear();
            this.show();
        }

        /* Follow the clock of the page for as long as the page is to be seen. */
        run() {
            const frame = () => {
                this.catchUp();
                if (this.runs) {
                    requestAnimationFrame(frame);
                }
            };
            this.seen = performance.now();
            this.runs = true;
            frame();
        }

        /* Follow it no more: whoever did this lets time pass. */
        halt() {
            this.runs = false;
        }
    };

    /* Make the keys of the area live; returns the board, or null where there is no engine. */
    pressIt.start = async (section, area, data) => {
        const view = new pressIt.View(section, data);
        if (data.engine === null) {
            view.refuse(data.reason);
            return null;
        }
        let engine;
        try {
            engine = await pressIt.Engine.load(data.engine);
        } catch (error) {
            view.refuse(`This browser does not run the keyboard's engine: ${error.message}`);
            return null;
        }
        const board = new pressIt.Board(data, engine, view);
        const boxes = { take: view.part("take"), stay: view.part("stay") };
        pressIt.listen(area, board.fingers, boxes, data.computer);
        view.part("restart").addEventListener("click", () => board.restart());
        view.part("clear").addEventListener("click", () => board.clear());
        pressIt.listenToTurns(section, board);
        view.begin(area);
        pressIt.roam(area); /* after `listen`: a key that the board takes moves no focus */
        board.run();
        return board;
    };

    const begin = () => {
        const section = document.querySelector('[data-press="section"]');
        const area = document.querySelector('[data-press="area"]');
        const data = document.getElementById("press-data");
        if (section && area && data) {
            pressIt.board = pressIt.start(section, area, JSON.parse(data.textContent));
        }
    };

    if (document.readyState === "loading") {
        document.addEventListener("DOMContentLoaded", begin);
    } else {
        begin();
    }
})();
