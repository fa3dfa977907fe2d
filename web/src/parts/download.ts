/* A file for whoever uses the page. */
export function download(blob: Blob, name: string): void {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), REVOKED_AFTER_MS);
}

const REVOKED_AFTER_MS = 10_000;
