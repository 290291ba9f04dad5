import { describe, expect, it } from 'vitest';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { intakeHall, keys } from '#tests/screens/support/intake.ts';

const house = testHouse((bookFile) => {
  intakeHall(bookFile).book.close();
});

describe('a list of choices', () => {
  it('shows the one that an arrow points at, however long it is', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    await page.getByRole('combobox', { name: 'Goods' }).and(page.locator(':focus')).waitFor();
    await keys(page, 'o');
    const list = page.getByRole('listbox', { name: 'Goods' });
    await list.evaluate((element) => {
      element.style.maxHeight = '60px';
    });
    const last = list.getByRole('option').last();
    const isInSight = async () => {
      const [inside, box] = [await last.boundingBox(), await list.boundingBox()];
      return (
        inside !== null && box !== null && inside.y >= box.y - 1 && inside.y + inside.height <= box.y + box.height + 1
      );
    };
    expect(await isInSight()).toBe(false);
    await page.keyboard.press('ArrowUp');
    await expect.poll(isInSight).toBe(true);
  });

  it('takes nothing by the Enter that ends a letter made of several keys', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    const goods = page.getByRole('combobox', { name: 'Goods' });
    await goods.and(page.locator(':focus')).waitFor();
    await keys(page, 'ra');
    const enter = { key: 'Enter', bubbles: true, cancelable: true };
    await goods.dispatchEvent('keydown', { ...enter, isComposing: true });
    expect(await goods.inputValue()).toBe('ra');
    await goods.dispatchEvent('keydown', enter);
    await expect.poll(() => goods.inputValue()).toBe('Raccoon');
  });
});
