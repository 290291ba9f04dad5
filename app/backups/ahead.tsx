import { Notice } from '#app/ui/notice.tsx';
import type { FolderView } from './view.ts';

/** Each backup that has entries the book does not, with what to do: nobody should go on entering before that is done. */
export function Ahead({ ahead }: Pick<FolderView, 'ahead'>) {
  return ahead.map(({ title, toDo }) => (
    <Notice key={title} kind="stop" title={title}>
      <p>
        {toDo} <a href="/help/backups">How to restore</a>
      </p>
    </Notice>
  ));
}
