/* The page without records. */
import type { RecordsPart } from "./door";

export const part: RecordsPart | null = null;
