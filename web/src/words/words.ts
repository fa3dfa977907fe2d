import { createContext } from "preact";
import { useContext } from "preact/hooks";
import { en, type Words } from "./en";
import { es } from "./es";

export const languages: Record<string, { name: string; words: Words }> = {
    en: { name: "English", words: en },
    es: { name: "Español", words: es },
};

export const WordsContext = createContext<Words>(en);

export function useWords(): Words {
    return useContext(WordsContext);
}
