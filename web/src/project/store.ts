/* Projects in the browser's store. Pages opened as files share one store, so the name carries the page's own. */
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { Project } from "./project";

interface Schema extends DBSchema {
    projects: { key: string; value: Project; indexes: { changed: number } };
    settings: { key: string; value: string };
}

export class Store {
    private constructor(private readonly base: IDBPDatabase<Schema> | null) {}

    /** A store that keeps nothing where the browser has none (a private window): the page says so. */
    static async open(name: string): Promise<Store> {
        try {
            const base = await openDB<Schema>(name, 1, {
                upgrade(created) {
                    created.createObjectStore("projects", { keyPath: "id" }).createIndex("changed", "changed");
                    created.createObjectStore("settings");
                },
            });
            return new Store(base);
        } catch {
            return new Store(null);
        }
    }

    get keeps(): boolean {
        return this.base !== null;
    }

    async projects(): Promise<Project[]> {
        const found = (await this.base?.getAllFromIndex("projects", "changed")) ?? [];
        return found.reverse();
    }

    async project(id: string): Promise<Project | undefined> {
        return this.base?.get("projects", id);
    }

    async save(project: Project): Promise<void> {
        await this.base?.put("projects", project);
    }

    async remove(id: string): Promise<void> {
        await this.base?.delete("projects", id);
    }

    async setting(key: string): Promise<string | undefined> {
        return this.base?.get("settings", key);
    }

    async set(key: string, value: string): Promise<void> {
        await this.base?.put("settings", value, key);
    }
}
