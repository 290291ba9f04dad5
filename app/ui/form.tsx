'use client';

import type { ComponentProps } from 'react';

interface FormProps extends Omit<ComponentProps<'form'>, 'onSubmit' | 'noValidate'> {
  readonly onEntered: () => Promise<unknown>;
}

/** A form whose fields are judged by the book and not by the browser, and which leads to no other page. */
export function Form({ onEntered, ...rest }: FormProps) {
  return (
    <form
      {...rest}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void onEntered();
      }}
    />
  );
}
