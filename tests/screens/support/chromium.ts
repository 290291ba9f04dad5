/** The browser by itself, also for programs that are no test. */
import { existsSync } from 'node:fs';
import { type Browser, type BrowserContext, chromium, type LaunchOptions } from 'playwright-core';

/** A name that leads to this machine, yet is no secure context: what a phone in the hall gets over plain http. */
export const HALL_HOST = 'hall.test';

/** The first is the same engine without windows of its own, which opens a page the quickest. */
const PLACES = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome'].map(
  (name) => `/usr/bin/${name}`,
);

/**
 * Two pages of the browser's own, which it draws for its address bar with each window: nobody sees them here, and they
 * took half of what opening a page of ours costs. Behind them what Playwright turns off, as a second list replaces the first.
 */
const OFF = [
  ...['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup'],
  ...['AvoidUnnecessaryBeforeUnloadCheckSync', 'DestroyProfileOnBrowserClose', 'HttpsUpgrades'],
  ...[
    'HttpsFirstBalancedModeAutoEnable',
    'LensOverlay',
    'MediaRouter',
    'PaintHolding',
    'ThirdPartyStoragePartitioning',
  ],
  ...['AvoidCorsURLLoaderRestartOnRedirect', 'OptimizationHints', 'NetworkTimeServiceQuerying', 'AimEnabled'],
  ...['PreconnectToSearch'],
];

const QUIET = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  `--disable-features=${OFF.join(',')}`,
  `--host-resolver-rules=MAP ${HALL_HOST} 127.0.0.1`,
];

/** The browser's path: CHROME_PATH where set, else where Linux systems put it. */
export function browserPath(): string {
  const path = [process.env.CHROME_PATH, ...PLACES].find((place) => place !== undefined && existsSync(place));
  if (path === undefined) throw new Error('No Chromium found: install it, or set CHROME_PATH to one.');
  return path;
}

/** Starts a browser, which the caller closes. Files of tests share one: `theBrowser` of browser.ts. */
export async function openBrowser(options: Pick<LaunchOptions, 'handleSIGTERM'> = {}): Promise<Browser> {
  return chromium.launch({ ...options, executablePath: browserPath(), args: QUIET });
}

/** A window with a profile of its own in this folder. `kill` ends its browser as a power cut does, with all its processes. */
export async function openKillable(
  profile: string,
): Promise<{ readonly window: BrowserContext; kill(): Promise<void> }> {
  const window = await chromium.launchPersistentContext(profile, { executablePath: browserPath(), args: QUIET });
  const browser = window.browser();
  if (!browser) throw new Error('The window has no browser of its own.');
  // What was started may be a script around the browser: that one knows its own number.
  const { processInfo } = await (await browser.newBrowserCDPSession()).send('SystemInfo.getProcessInfo');
  const pid = processInfo.find(({ type }) => type === 'browser')?.id ?? 0;
  const ended = new Promise((resolve) => browser.once('disconnected', resolve));
  const kill = async () => {
    if (!browser.isConnected()) return;
    process.kill(pid, 'SIGKILL');
    await ended;
  };
  return { window, kill };
}
