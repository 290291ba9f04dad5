'use client';

import { type KeyboardEvent, type Ref, useId, useState } from 'react';
import { FieldFrame, tiedTo } from './field.tsx';
import type { FieldProps } from './text-field.tsx';

export interface Choice {
  readonly id: string;
  readonly label: string;
  /** What tells the choice from others like it, in smaller letters. */
  readonly detail?: string;
}

interface ComboboxProps extends FieldProps {
  readonly value: string;
  readonly onText: (text: string) => void;
  /** The choices that fit what is typed; the first is taken by Enter. */
  readonly choices: readonly Choice[];
  readonly onPick: (choice: Choice) => void;
  /** Enter, after the choice was taken where there was one. */
  readonly onEnter?: (picked: Choice | undefined) => void;
  /** The list shows before anything is typed. */
  readonly openEmpty?: boolean;
  readonly placeholder?: string;
  readonly inputRef?: Ref<HTMLInputElement>;
  readonly autoFocus?: boolean;
}

/** A box with a list, after the combobox of the ARIA Authoring Practices Guide (editable, list of choices). */
export function Combobox(props: ComboboxProps) {
  const { label, hint, error, value, choices, placeholder, inputRef, autoFocus, wide = false } = props;
  const id = useId();
  const list = useList(props);
  return (
    <FieldFrame {...{ label, hint, error, wide, id }} kind="combobox">
      <input
        {...tiedTo(id, { hint, error })}
        ref={inputRef}
        role="combobox"
        type="text"
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        // biome-ignore lint/a11y/noAutofocus: The one box of its page, where the queue begins.
        autoFocus={autoFocus}
        placeholder={placeholder}
        value={value}
        aria-expanded={list.shown}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={list.active ? `${id}-${list.at}` : undefined}
        onChange={(event) => list.type(event.target.value)}
        onKeyDown={list.press}
        onFocus={(event) => {
          event.target.select();
          list.enter();
        }}
        onBlur={list.leave}
      />
      <div id={`${id}-list`} role="listbox" aria-label={label} hidden={!list.shown}>
        {choices.map((choice, at) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: The box takes the keys; the list is for the pointer only.
          <div
            key={choice.id}
            id={`${id}-${at}`}
            // A list may be longer than its box.
            ref={at === list.at && list.pointed ? (option) => option?.scrollIntoView({ block: 'nearest' }) : undefined}
            role="option"
            tabIndex={-1}
            aria-selected={at === list.at}
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => list.take(choice)}
          >
            {choice.label}
            {choice.detail && <span className="choice-detail">{choice.detail}</span>}
          </div>
        ))}
      </div>
    </FieldFrame>
  );
}

const SHUT = { open: false, at: 0, pointed: false };

/** Which of the choices is at hand, and what the keys do to it. */
function useList({ value, choices, onText, onPick, onEnter, openEmpty = false }: ComboboxProps) {
  // An empty box takes nothing by itself: the list only shows what there is, until an arrow has pointed at one.
  const [list, setList] = useState(SHUT);
  const { open, at, pointed } = list;
  const shown = open && choices.length > 0 && (openEmpty || value.trim() !== '');
  const active = shown ? choices[Math.min(at, choices.length - 1)] : undefined;
  const taken = active && (value.trim() !== '' || pointed) ? active : undefined;

  const close = () => setList(SHUT);
  const take = (choice: Choice) => {
    onPick(choice);
    close();
  };
  const move = (by: number) => {
    const next = open ? (at + by + choices.length) % Math.max(1, choices.length) : at;
    setList({ open: true, at: next, pointed: true });
  };
  const press = (event: KeyboardEvent) => {
    // Enter also ends a letter that is put together out of several keys.
    if (event.ctrlKey || event.altKey || event.metaKey || event.nativeEvent.isComposing) return;
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      move(event.key === 'ArrowDown' ? (pointed || value !== '' ? 1 : 0) : -1);
    } else if (event.key === 'Escape' && open) {
      event.preventDefault();
      close();
    } else if (event.key === 'Enter') {
      event.preventDefault();
      if (taken) take(taken);
      // Where Enter means nothing else, it shows the list again that was closed.
      else if (onEnter) close();
      else setList({ ...list, open: true });
      onEnter?.(taken);
    } else if (event.key === 'Tab' && taken) take(taken);
  };
  const type = (text: string) => {
    setList({ ...SHUT, open: true });
    onText(text);
  };
  return {
    shown,
    at: active ? Math.min(at, choices.length - 1) : -1,
    active: taken,
    pointed,
    take,
    press,
    type,
    enter: () => setList({ ...SHUT, open: openEmpty }),
    leave: close,
  };
}
