// Unlocking, locking, and setting the passphrase.
import { Hono } from 'hono'
import { z } from 'zod'
import { refuse } from '#ledger/problem.ts'
import { PassphrasePage, UnlockPage } from '#views/settings/passphrase.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { checkbox, formIdField, wholeNumber } from '#web/forms/fields.ts'
import { type Checked, checkForm, type FormErrors, newFormId, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { Access } from '#web/server/access.ts'
import type { PageEnv } from '#web/server/context.ts'
import { clientOf, keepKnown, keepSession, safeNext, sessionOf } from '#web/server/lock.ts'

export const passphrasePages: PageRoom = {
  build: ({ access, isLoopback }) =>
    new Hono<PageEnv>()
      .get('/unlock', (c) =>
        access.isSet() ? showUnlock(c, safeNext(c.req.query('next')), {}) : c.redirect('/now', 303),
      )
      .post('/unlock', (c) => unlock(c, access))
      .post('/lock', (c) => {
        access.close(sessionOf(c))
        return moveOn(c, '/unlock')
      })
      .get('/settings/passphrase', (c) => showSettings(c, access, isLoopback, {}))
      .post('/settings/passphrase', (c) => savePassphrase(c, access, isLoopback)),
}

async function unlock(c: PageContext, access: Access) {
  const typed = await readForm(c)
  const next = safeNext(typed.value('next'))
  const checked = await access.check(typed.value('passphrase').slice(0, 200), clientOf(c, access))
  switch (checked.result) {
    case 'wait':
      return showUnlock(
        c,
        next,
        { passphrase: `Too many tries. Wait ${checked.seconds} seconds, then try again` },
        429,
      )
    case 'wrong':
      return showUnlock(c, next, { passphrase: 'That is not the passphrase. Try again' })
    case 'right':
      keepSession(c, access.open())
      keepKnown(c, access)
      return moveOn(c, next)
  }
}

const showUnlock = (c: PageContext, next: string, errors: FormErrors, status: 422 | 429 = 422) =>
  answer(c, {
    title: 'Unlock',
    status: Object.keys(errors).length > 0 ? status : 200,
    withoutPages: true,
    page: () => <UnlockPage next={next} errors={errors} isLate={c.req.query('late') === 'yes'} />,
  })

const passphraseForm = z.object({
  formId: formIdField(),
  current: z.string().max(200).optional(),
  passphrase: z.string().max(200, { error: 'Use at most 200 characters' }),
  again: z.string(),
  idleMinutes: wholeNumber(1, 1440),
  remove: checkbox(),
})

const savePassphrase = (c: PageContext, access: Access, isLoopback: boolean) =>
  posted(c, {
    check: (typed) => checkPassphrase(checkForm(passphraseForm, typed), isLoopback),
    again: (_typed, errors) => showSettings(c, access, isLoopback, errors),
    keep: (value) => keepPassphrase(c, access, value),
  })

async function keepPassphrase(
  c: PageContext,
  access: Access,
  { formId, current, passphrase, remove, idleMinutes }: z.output<typeof passphraseForm>,
) {
  if (access.isSet()) {
    const right = await access.check(current ?? '', clientOf(c, access))
    if (right.result !== 'right') {
      const says =
        right.result === 'wait'
          ? `Wait ${right.seconds} seconds, then try again`
          : 'That is not the passphrase now'
      return refuse({ path: 'current', message: says })
    }
  }
  const saved = await access.save(actOf(c, formId), remove ? null : passphrase, idleMinutes)
  if (!saved.ok) return saved
  if (!remove) {
    keepSession(c, access.open())
    keepKnown(c, access)
  }
  return moveOn(
    c,
    '/settings',
    remove ? 'The passphrase is gone; the pages are open.' : 'The passphrase is set.',
  )
}

function checkPassphrase(
  checked: Checked<z.output<typeof passphraseForm>>,
  isLoopback: boolean,
): Checked<z.output<typeof passphraseForm>> {
  if (!checked.ok) return checked
  const { passphrase, again, remove } = checked.value
  const refuse = (errors: FormErrors) => ({ ok: false as const, errors })
  if (remove) {
    return isLoopback
      ? checked
      : refuse({ remove: 'Other computers can reach this address, so it needs a passphrase' })
  }
  if ([...passphrase].length < 12)
    return refuse({ passphrase: 'Use at least 12 characters, like a few words' })
  if (isEasilyGuessed(passphrase))
    return refuse({ passphrase: 'That is easily guessed. Choose a few words of your own' })
  return passphrase === again ? checked : refuse({ again: 'The two are not the same. Type both again' })
}

/** The most common long passphrases are one word twice, a run of digits or keys, or few different letters (common practice). */
const isEasilyGuessed = (passphrase: string): boolean => {
  const plain = passphrase.toLowerCase().replaceAll(/[^a-z0-9]/g, '')
  const runs = ['01234567890123456789', 'abcdefghijklmnopqrstuvwxyz', 'qwertyuiopasdfghjklzxcvbnm']
  return (
    new Set(plain).size < 5 ||
    /^(.+)\1+$/.test(plain) ||
    runs.some((run) => run.includes(plain) || plain.includes(run.slice(0, 10))) ||
    /^(password|passphrase|dooryard|letmein|welcome)\d*(password|passphrase|dooryard|letmein|welcome)?\d*$/.test(
      plain,
    )
  )
}

const showSettings = (c: PageContext, access: Access, isLoopback: boolean, errors: FormErrors) =>
  answer(c, {
    title: 'Passphrase',
    status: statusOf(errors),
    page: () => (
      <PassphrasePage
        isSet={access.isSet()}
        mayRemove={isLoopback}
        idleMinutes={String(access.idleMinutes())}
        formId={newFormId()}
        errors={errors}
      />
    ),
  })
