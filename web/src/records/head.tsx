/* Where a screen is: the way back, and its heading, which has the focus at first. */
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";

export function Head(props: { links: readonly { to: string; says: string }[]; title: string }): JSX.Element {
    const heading = useRef<HTMLHeadingElement>(null);
    useEffect(() => {
        scrollTo(0, 0);
        heading.current?.focus();
    }, []);
    return (
        <header class="head records-head">
            <nav>
                {props.links.map((each) => (
                    <a key={each.to} href={each.to}>
                        {each.says}
                    </a>
                ))}
            </nav>
            <h1 ref={heading} tabIndex={-1}>
                {props.title}
            </h1>
        </header>
    );
}
