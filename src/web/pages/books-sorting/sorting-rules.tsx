// Sorting rules: listed, written, changed, put away, and tried on past lines before they are saved.
import { Hono } from 'hono'
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { sortingHistory } from '#db/statements/sorting-history.ts'
import {
  archiveRule,
  findRule,
  type KeptRule,
  listRules,
  type RuleFields,
  saveRule,
} from '#db/statements/sorting-rule-store.ts'
import { type DryRunOutcome, dryRun } from '#ledger/statements/dry-run.ts'
import { plainPayee } from '#ledger/statements/payee-text.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import {
  DryRunPart,
  type DryRunShown,
  RuleForm,
  type RuleRow,
  RulesPage,
} from '#views/books-sorting/rules.tsx'
import { moneyAccounts, optionsBySide } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { choice, formIdField, moneyOrNull, requiredText, wholeNumberOrNull } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { showOverTheirs } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { groundOf } from './desk-rows.ts'
import {
  readTarget,
  ruleTargetOptions,
  type TargetGround,
  targetName,
  targetValue,
} from './sorting-targets.ts'

export const sortingRulePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/sorting/rules', showRules)
      .get('/books/sorting/rules/:id', (c) => showRule(c, c.req.param('id')))
      .post('/books/sorting/rules/:id', (c) => changeRule(c, c.req.param('id'))),
}

const ruleForm = z.object({
  formId: formIdField(),
  basedOn: wholeNumberOrNull(1, 1_000_000_000),
  matchKind: choice(['equals', 'starts', 'contains'], 'Choose how the payee is compared'),
  matchText: requiredText('Enter at least one word of the payee'),
  onAccount: z.string().optional(),
  sign: z
    .string()
    .optional()
    .transform((text) => (text === 'in' || text === 'out' ? text : null)),
  minimum: moneyOrNull(),
  maximum: moneyOrNull(),
  target: z.string().optional(),
  priority: z
    .string()
    .optional()
    .transform((text) => (text === '1' ? 1 : 0)),
})

function showRules(c: PageContext) {
  const { books } = c.var.web
  const ground = groundOf(books)
  const rules = listRules(books).map((rule) => ruleRow(rule, ground))
  return answer(c, {
    title: 'Sorting rules',
    figures: { rules },
    page: () => <RulesPage rules={rules} />,
    tables: {
      rules: () =>
        tableOf(rules, {
          lines: (rule) => rule.says,
          'go to': (rule) => rule.target,
          learned: (rule) => (rule.learned ? 'yes' : 'no'),
          used: (rule) => rule.timesUsed,
          priority: (rule) => rule.priority,
        }),
    },
  })
}

function showRule(c: PageContext, id: string) {
  if (id === 'new')
    return answerRule(
      c,
      id,
      openingForm({ formId: newFormId(), matchKind: 'starts', priority: '0' }),
      {},
      null,
    )
  const rule = findRule(c.var.web.books, id)
  if (!rule) return notFound(c, 'There is no such rule any more. Look at the list of rules.')
  return answerRule(c, id, formOf(rule), {}, tryRule(c.var.web.books, id, rule))
}

const formOf = (rule: KeptRule): TypedForm =>
  openingForm({
    formId: newFormId(),
    basedOn: String(rule.revision),
    matchKind: rule.matchKind,
    matchText: rule.matchText,
    onAccount: rule.onAccountId === null ? '' : String(rule.onAccountId),
    sign: rule.sign ?? '',
    minimum: rule.minimum === null ? '' : centsToDecimalText(rule.minimum),
    maximum: rule.maximum === null ? '' : centsToDecimalText(rule.maximum),
    target: targetValue(rule.target),
    priority: rule.priority > 0 ? '1' : '0',
  })

async function changeRule(c: PageContext, id: string) {
  const typed = await readForm(c)
  const { books } = c.var.web
  const checked = checkForm(ruleForm, typed)
  if (typed.value('archive') !== '' && id !== 'new') {
    archiveRule(books, actOf(c, newFormId()), id)
    return moveOn(c, '/books/sorting/rules', 'The rule is archived. What it sorted stays as it is.')
  }
  const target = readTarget(typed.value('target'))
  if (!checked.ok || !target) {
    const errors = {
      ...(checked.ok ? {} : checked.errors),
      ...(target ? {} : { target: 'Choose where such transactions go' }),
    }
    // While the rule is still being written, only the try is shown again: not yet what is missing.
    return answerRule(c, id, typed, typed.value('try') !== '' ? {} : errors, null)
  }
  const { formId, basedOn, onAccount, ...rest } = checked.value
  const fields: RuleFields = {
    ...rest,
    target,
    onAccountId: /^\d{1,15}$/.test(onAccount ?? '') ? Number.parseInt(onAccount!, 10) : null,
  }
  if (typed.value('try') !== '') return answerRule(c, id, typed, {}, tryRule(books, id, fields))
  const seen = id === 'new' ? null : { id, revision: basedOn ?? 0 }
  const saved = saveRule(books, actOf(c, formId), seen, fields)
  const kept = () => moveOn(c, '/books/sorting/rules', 'The rule is saved. It proposes from now on.')
  const now = seen ? findRule(books, id) : undefined
  if (!saved.ok && saved.kind === 'conflict' && now && now.revision !== seen?.revision)
    return showOverTheirs(c, {
      what: 'the sorting rule',
      typed,
      now: formOf(now),
      subject: id,
      theirs: `/books/sorting/rules/${encodeURIComponent(id)}`,
      alike: kept,
      words: ruleWords(books),
    })
  if (!saved.ok) return answerRule(c, id, typed, errorsOf(saved.problems), null)
  return kept()
}

/** Accounts by name, and what a choice of the form says. */
const ruleWords = (books: Books) => {
  const ground = groundOf(books)
  return (name: string, value: string) => {
    const target = name === 'target' ? readTarget(value) : null
    if (name === 'target')
      return { where: 'where such transactions go', ...(target ? { value: targetName(target, ground) } : {}) }
    const account = name === 'onAccount' ? ground.accounts.find(({ id }) => String(id) === value) : undefined
    if (name === 'onAccount') return { where: 'on the account', value: account?.name ?? 'any' }
    if (name === 'priority') return { value: value === '1' ? 'before other rules' : 'as its words are' }
    return {}
  }
}

function answerRule(
  c: PageContext,
  id: string,
  typed: TypedForm,
  errors: FormErrors,
  run: DryRunShown | null,
) {
  const { books } = c.var.web
  const ground = groundOf(books)
  return answer(c, {
    title: id === 'new' ? 'Write a sorting rule' : 'Change a sorting rule',
    status: statusOf(errors),
    figures: { dryRun: run },
    page: () => (
      <RuleForm
        address={`/books/sorting/rules/${encodeURIComponent(id)}`}
        isNew={id === 'new'}
        formId={typed.value('formId')}
        value={(name) => typed.value(name)}
        errors={errors}
        accountOptions={optionsBySide(moneyAccounts(ground.accounts), ground.sides)}
        targetOptions={withChosen(ruleTargetOptions(ground), typed.value('target'), ground)}
        dryRun={run}
      />
    ),
    parts: { 'dry-run': () => <DryRunPart dryRun={run} /> },
  })
}

/** A learned target may carry an enterprise that the list does not offer. */
const withChosen = (options: ReturnType<typeof ruleTargetOptions>, chosen: string, ground: TargetGround) => {
  const target = readTarget(chosen)
  return target && !options.some((option) => option.value === chosen)
    ? [{ value: chosen, label: targetName(target, ground), group: 'As it is' }, ...options]
    : options
}

const mostShown = 60

const tryRule = (books: Books, id: string, fields: RuleFields): DryRunShown => {
  const ground = groundOf(books)
  const history = sortingHistory(books)
  const draft = { ...fields, id, matchText: plainPayee(fields.matchText), learned: false, lastUsedAt: null }
  const run = dryRun(draft, listRules(books), history)
  const order: DryRunOutcome[] = ['different', 'unsorted', 'other', 'same']
  return {
    counts: run.counts,
    overruled: run.overruled,
    historyCount: history.length,
    lines: [...run.caught]
      .sort((one, other) => order.indexOf(one.outcome) - order.indexOf(other.outcome))
      .slice(0, mostShown)
      .map(({ line, outcome }) => ({
        day: line.day,
        payee: line.payee || line.text,
        amount: line.amount,
        outcome,
        went: line.went === null || line.went === 'other' ? '–' : targetName(line.went, ground),
      })),
  }
}

const ruleRow = (rule: KeptRule, ground: TargetGround): RuleRow => {
  const account = ground.accounts.find((each) => each.id === rule.onAccountId)
  const how = { equals: '', starts: ' …', contains: '' }[rule.matchKind]
  const words = rule.matchKind === 'contains' ? allOf(rule.matchText.split(' ')) : rule.matchText
  const bounds = [
    rule.minimum === null ? '' : `from ${formatCents(rule.minimum)}`,
    rule.maximum === null ? '' : `to ${formatCents(rule.maximum)}`,
  ]
    .filter(Boolean)
    .join(' ')
  return {
    id: rule.id,
    says: [
      `“${words}${how}”`,
      rule.sign === null ? '' : rule.sign === 'out' ? 'money out' : 'money in',
      bounds,
      account ? `on ${account.name}` : '',
    ]
      .filter(Boolean)
      .join(', '),
    target: targetName(rule.target, ground),
    learned: rule.learned,
    timesUsed: rule.timesUsed,
    priority: rule.priority,
  }
}
