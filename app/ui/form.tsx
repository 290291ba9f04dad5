'use client';

import { type ComponentProps, type ReactNode, useState } from 'react';
import { useListening } from './live-refresh.tsx';
import { Notice } from './notice.tsx';

interface FormProps extends Omit<ComponentProps<'form'>, 'onSubmit' | 'noValidate'> {
  readonly onEntered: () => unknown;
  /** While an entry is under way, no second one is taken. */
  readonly busy?: boolean;
  /** What was done, and what was refused and is said at no field: both stand at its head. */
  readonly done?: string | false | undefined;
  readonly wrong?: string | undefined;
}

/**
 * A form whose fields are judged by the book and not by the browser, and which leads to no other page. Nothing in it can
 * be typed or ticked before the page's script listens, so nothing can be lost when it takes over.
 */
export function Form({ onEntered, busy, done, wrong, children, ...rest }: FormProps) {
  const listening = useListening();
  return (
    <form
      {...rest}
      noValidate
      data-busy={busy || undefined}
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy) onEntered();
      }}
    >
      <fieldset role="none" className="whole-form" disabled={!listening}>
        {done && <Notice kind="done" title={done} />}
        {wrong && <Notice kind="stop" title={wrong} />}
        {children}
      </fieldset>
    </form>
  );
}

/** The options of a choice: each value with its words. */
export function Options({ of }: { readonly of: readonly (readonly [string | number, string])[] }) {
  return of.map(([value, words]) => (
    <option key={value} value={value}>
      {words}
    </option>
  ));
}

type ErrorOf = (field: string) => string | undefined;

/** The names of what is typed as text. */
type TextOf<T> = { [K in keyof T]-?: T[K] extends string ? K : never }[keyof T] & string;

/** Fields over what a form holds: `field('name')` gives a field its text, what was refused of it, and its handler. */
export function fieldsOver<T>(typed: T, change: (over: Partial<T>) => void, errorOf?: ErrorOf) {
  return (name: TextOf<T>) => ({
    value: typed[name] as string,
    error: errorOf?.(name),
    onChange: ({ target }: { readonly target: { readonly value: string } }) =>
      change({ [name]: target.value } as Partial<T>),
  });
}

/** What is typed into the text fields of a form, with their `field`. */
export function useTexts<K extends string>(
  first: Readonly<Record<K, string>>,
  errorOf?: ErrorOf,
  onTyped?: () => void,
) {
  const [texts, setTexts] = useState(first);
  const set = (over: Partial<Record<K, string>>) => {
    setTexts((now) => ({ ...now, ...over }));
    onTyped?.();
  };
  return { texts, set, field: fieldsOver(texts, set, errorOf), reset: () => setTexts(first) };
}

interface SubmitActsProps {
  readonly label: string;
  /** The one thing the page is for, drawn so that it stands out. */
  readonly main?: boolean;
  readonly disabled?: boolean;
  /** Other buttons beside it. */
  readonly children?: ReactNode;
}

/** The button that sends a form. */
export function SubmitActs({ label, main = false, disabled, children }: SubmitActsProps) {
  return (
    <div className="acts">
      <button type="submit" className={main ? 'act' : undefined} disabled={disabled}>
        {label}
      </button>
      {children}
    </div>
  );
}

interface ActProps {
  /** What the button says, and what only those hear who do not see what it stands beside. */
  readonly words: string;
  readonly about?: string;
  readonly act: () => unknown;
  /** The one thing the page is for, drawn so that it stands out. */
  readonly main?: boolean;
  readonly disabled?: boolean;
}

/** A button that does something else than sending a form. */
export function Act({ words, about, act, main = false, disabled }: ActProps) {
  return (
    <button type="button" className={main ? 'act' : undefined} disabled={disabled} onClick={() => void act()}>
      {words}
      {about && <span className="visually-hidden"> {about}</span>}
    </button>
  );
}
