/*
 * What is in a report. A keyboard's report is HID 1.11 appendix B.1's eight bytes, then a bit for each
 * usage; a report of media keys is its number, then a bit for each key of its kind.
 */
(() => {
    const BOOT_BYTES = 8;

    const bitsOf = (bytes) => {
        const found = [];
        bytes.forEach((byte, place) => {
            for (let bit = 0; bit < 8; bit++) {
                if ((byte >> bit) & 1) {
                    found.push(8 * place + bit);
                }
            }
        });
        return found;
    };

    /* The modifiers of a keyboard's report, a bit each, and the usages that are down. */
    pressIt.downIn = (report) => ({ modifiers: report[0], usages: bitsOf(report.slice(BOOT_BYTES)) });

    pressIt.hex = (bytes) =>
        Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0").toUpperCase()).join(" ");

    const sentence = (words) => (words.length === 0 ? "nothing down" : `${words.join("+")} down`);

    /* A keyboard's report in words, such as `Shift+A down`. */
    pressIt.wordsOf = (data, report) => {
        const { modifiers, usages } = pressIt.downIn(report);
        const held = bitsOf([modifiers]).map((bit) => data.modifiers[bit]);
        return sentence([...held, ...usages.map((usage) => data.words[usage] || `usage ${usage}`)]);
    };

    /* The same of a report of media keys. */
    pressIt.mediaWordsOf = (data, report) =>
        sentence(bitsOf(report.slice(1)).map((bit) => data.media[report[0]][bit]));
})();
