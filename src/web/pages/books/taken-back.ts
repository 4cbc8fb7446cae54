// What is said once an entry is taken back, and of the bank's line that went with it.
import type { PageContext } from '#web/forms/answer.tsx'
import { newFormId } from '#web/forms/form.ts'
import type { NoticeText } from '#web/server/notices.ts'
import { undoable } from '#web/server/undo.ts'

/** A line set aside with it is taken up again by one press; else the reversal itself can be undone. */
export const takenBackSays = (c: PageContext, no: number, [skipped]: readonly number[]): NoticeText =>
  skipped === undefined
    ? undoable(c, `Entry ${no} is reversed.`, `/books/entries/${no}`)
    : {
        text: `Entry ${no} is reversed. The bank has the same transaction of this day once more, so its line is skipped: it happened once.`,
        undo: {
          action: `/books/sorting/set-aside/${skipped}`,
          label: 'It happened twice: let the line wait',
          formId: newFormId(),
        },
      }
