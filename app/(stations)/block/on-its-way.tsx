import { takeHeldKeys } from './held-keys.ts';

/** In the place of a box that the server has not sent yet: it is fetched when the page is opened, unless the line is down. */
export function OnItsWay({ close }: { readonly close: () => void }) {
  const leave = () => {
    takeHeldKeys();
    close();
  };
  return (
    <div className="notice" data-kind="wait" role="status">
      <p>
        <strong>This part of the page has not come from the server yet.</strong> What you type is kept for it.
      </p>
      {/* biome-ignore lint/a11y/noAutofocus: The fields are hidden now, and Escape is to be heard. */}
      <button type="button" autoFocus onClick={leave} onKeyDown={({ key }) => key === 'Escape' && leave()}>
        <kbd>Esc</kbd> Leave it
      </button>
    </div>
  );
}
