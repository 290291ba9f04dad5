'use client';

import type { ComponentProps } from 'react';
import { useListening } from './live-refresh.tsx';

interface FormProps extends Omit<ComponentProps<'form'>, 'onSubmit' | 'noValidate'> {
  readonly onEntered: () => Promise<unknown>;
}

/**
 * A form whose fields are judged by the book and not by the browser, and which leads to no other page. Nothing in it can
 * be typed or ticked before the page's script listens, so nothing can be lost when it takes over.
 */
export function Form({ onEntered, children, ...rest }: FormProps) {
  const listening = useListening();
  return (
    <form
      {...rest}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void onEntered();
      }}
    >
      <fieldset role="none" className="whole-form" disabled={!listening}>
        {children}
      </fieldset>
    </form>
  );
}
