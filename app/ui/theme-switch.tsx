'use client';

import { useEffect, useState } from 'react';
import { keepIn, keptIn } from './browser-keeps.ts';

const THEMES = [
  { value: '', label: 'As the device' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
  { value: 'sun', label: 'Sun' },
] as const;

/** Chooses how the screen looks on this device; kept in the browser. */
export function ThemeSwitch() {
  const [theme, setTheme] = useState('');
  useEffect(() => setTheme(keptIn('localStorage', 'peltry-theme') ?? ''), []);
  const choose = (chosen: string) => {
    setTheme(chosen);
    keepIn('localStorage', 'peltry-theme', chosen);
    if (chosen === '') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = chosen;
  };
  return (
    <label className="theme-switch small">
      Look{' '}
      <select className="theme-choice" value={theme} onChange={(event) => choose(event.target.value)}>
        {THEMES.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </label>
  );
}
