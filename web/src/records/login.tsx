/* Who writes: by name and password where the office wants it, else by name. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { useDesk } from "./use";
import type { Heard } from "./wire";
import { useRecordWords } from "./words";

const SECONDS_A_MINUTE = 60;

export function Login(): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const [name, setName] = useState(office.who);
    const [password, setPassword] = useState("");
    const [trouble, setTrouble] = useState("");
    const [working, setWorking] = useState(false);
    const send = async (event: Event): Promise<void> => {
        event.preventDefault();
        setWorking(true);
        const refused = await office.login(name, password);
        setWorking(false);
        setPassword("");
        setTrouble(refused === null ? "" : saidOf(refused));
    };
    const saidOf = (refused: Heard): string => {
        const body = (refused.body ?? {}) as { detail?: string };
        const minutes = Math.ceil(refused.afterSeconds / SECONDS_A_MINUTE);
        return refused.status === 0 ? words.noServer : minutes > 0 ? words.tooMany(minutes) : (body.detail ?? "");
    };
    return (
        <form class="login" onSubmit={(event) => void send(event)}>
            <label>
                {words.name}
                <input type="text" name="username" autocomplete="username" required value={name} onInput={(event) => setName(event.currentTarget.value)} />
            </label>
            <label>
                {words.password}
                <input type="password" name="password" autocomplete="current-password" required value={password} onInput={(event) => setPassword(event.currentTarget.value)} />
            </label>
            {trouble !== "" && (
                <p role="alert" class="troubles">
                    {trouble}
                </p>
            )}
            <button type="submit" disabled={working}>
                {words.logIn}
            </button>
        </form>
    );
}

/** What must be known before anything is saved. */
export function WhoAsked(): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    return office.needsLogin ? (
        <div class="card">
            <p>{words.login}</p>
            <Login />
        </div>
    ) : (
        <NameAsked />
    );
}

/** The name under which is written where nobody logs in. */
export function NameAsked(): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const [name, setName] = useState("");
    return (
        <form
            class="login named"
            onSubmit={(event) => {
                event.preventDefault();
                void office.name(name.trim());
            }}
        >
            <label>
                {words.yourName}
                <input type="text" autocomplete="name" required value={name} onInput={(event) => setName(event.currentTarget.value)} />
            </label>
            <button type="submit" disabled={name.trim() === ""}>
                {words.save}
            </button>
        </form>
    );
}
