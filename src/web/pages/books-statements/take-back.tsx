// Taking back a statement that was read in: shown first, then done as one act.
import { findStatement } from '#db/statements/statement-store.ts'
import { planTakeBack, takeBackImport } from '#db/statements/take-back.ts'
import { TakeBackPage } from '#views/books-statements/take-back.tsx'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import { type FormErrors, newFormId, readForm, statusOf } from '#web/forms/form.ts'

const noLonger = 'This statement was undone already, or never read in. Look at the list again.'

export function showTakeBack(c: PageContext, id: string, errors: FormErrors = {}) {
  const { books } = c.var.web
  const statement = findStatement(books, id)
  if (!statement) return notFound(c, noLonger)
  const plan = planTakeBack(books, id)
  const figures = {
    id,
    account: statement.accountName,
    fileName: statement.fileName,
    lines: plan.ok ? plan.lines : 0,
    entries: plan.ok ? plan.entries : 0,
    refusal: plan.ok ? '' : plan.problems[0]!.message,
    way: plan.ok ? null : (plan.problems[0]!.way ?? null),
  }
  return answer(c, {
    title: 'Take a statement back',
    status: statusOf(errors),
    figures,
    page: () => <TakeBackPage figures={figures} formId={newFormId()} errors={errors} />,
  })
}

export async function takeBack(c: PageContext, id: string) {
  const formId = formIdField().safeParse((await readForm(c)).value('formId'))
  if (!formId.success) return showTakeBack(c, id, { '': 'This form has lost its number. Open it again' })
  const done = takeBackImport(c.var.web.books, actOf(c, formId.data), id)
  if (!done.ok) return showTakeBack(c, id, errorsOf(done.problems))
  const { lines, entries } = done.result
  return moveOn(
    c,
    '/books/statements',
    `The statement is undone: ${lines} ${lines === 1 ? 'line' : 'lines'}, ${entries} ${entries === 1 ? 'entry' : 'entries'}.`,
  )
}
