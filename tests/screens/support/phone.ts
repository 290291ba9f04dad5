/** A page as a slow phone in a pickup gets it. */
import type { Page } from 'playwright-core';

/** A middling phone at the edge of the mobile net: the processor four times slower, 1.6 Mbit/s, 150 ms there and back. */
const SLOW = { cpu: 4, latency: 150, downloadThroughput: 200_000, uploadThroughput: 94_000 } as const;

/** Opens the page so and gives when its largest part was painted, in milliseconds from the tap. */
export async function asOnAPhone(page: Page, url: string): Promise<{ readonly largestMs: number }> {
  const { cpu, ...line } = SLOW;
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Network.enable');
  await devtools.send('Network.emulateNetworkConditions', { offline: false, ...line });
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: cpu });
  await page.goto(url, { waitUntil: 'load' });
  const largestMs = await page.evaluate(
    () =>
      new Promise<number>((done) => {
        new PerformanceObserver((list) => done(list.getEntries().at(-1)?.startTime ?? 0)).observe({
          type: 'largest-contentful-paint',
          buffered: true,
        });
      }),
  );
  return { largestMs };
}
