/* As src/engine/base85.ts reads it. */
export function encode85(bytes) {
    let text = "";
    for (let from = 0; from < bytes.length; from += 4) {
        const left = Math.min(4, bytes.length - from);
        let word = 0;
        for (let i = 0; i < 4; i += 1) {
            word = word * 256 + (i < left ? bytes[from + i] : 0);
        }
        for (let i = 4; i >= 4 - left; i -= 1) {
            const code = 40 + (Math.floor(word / 85 ** i) % 85);
            text += String.fromCharCode(code === 60 ? 125 : code === 92 ? 126 : code);
        }
    }
    return text;
}
