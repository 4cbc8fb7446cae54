// What is said once an entry is taken back, and of the bank's line that went with it.
import { newFormId } from '#web/forms/form.ts'
import type { NoticeText } from '#web/server/notices.ts'

/** A line set aside with it is taken up again by one press. */
export const takenBackSays = (no: number, [skipped]: readonly number[]): NoticeText => ({
  text: `Entry ${no} is reversed.${skipped === undefined ? '' : ' The bank has the same transaction of this day once more, so its line is skipped: it happened once.'}`,
  ...(skipped === undefined
    ? {}
    : {
        undo: {
          action: `/books/sorting/set-aside/${skipped}`,
          label: 'It happened twice: let the line wait',
          formId: newFormId(),
        },
      }),
})
