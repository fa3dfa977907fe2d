import { createContext } from "preact";
import { useContext } from "preact/hooks";
import { en, type RecordWords } from "./words_en";
import { es } from "./words_es";

export const recordLanguages: Record<string, RecordWords> = { en, es };

export const RecordWordsContext = createContext<RecordWords>(en);

export function useRecordWords(): RecordWords {
    return useContext(RecordWordsContext);
}
