// Keeps three years of the sample farm's books in an empty file, through the same functions the pages and commands use.
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type Day, day, dayInMonth, lastDayOf } from '#calendar/day.ts'
import { addMonths, month, monthOfYear } from '#calendar/month.ts'
import { addAccount, addSide, findAccount, listAccounts, systemAccount } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { savePlan } from '#db/plan-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { startStanding } from '#db/transfers/standing-store.ts'
import type { SideId } from '#ledger/account.ts'
import type { Outcome } from '#ledger/problem.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import type { Statement } from '#ledger/statements/statement.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents } from '#money/cents.ts'
import { benchMonths } from './household-movements.ts'
import { writeNotebook } from './notebook.ts'
import { type BankAccountName, openingCents, postedInMonth, sampleMonths } from './sample-bank.ts'
import { destinationOf, type NamedAccount } from './where-lines-go.ts'
import { closeYears, listOwned, reconcileAccounts } from './year-ends.ts'

const sampleFolder = import.meta.dirname
const statementsFolder = join(sampleFolder, 'statements')
const firstDay = day('2023-11-01')
/** Lines of the last days still wait on the desk, so that there is something to try. */
const sortedUntil: Day = day('2026-10-26')

/** Fills empty books. All or nothing; throws when the sample does not fit the code, which tests would have told. */
export const buildSample = (books: Books): void => {
  atomically(books, () => {
    new SampleBuilder(books).build()
    return { ok: true }
  })
}

class SampleBuilder {
  readonly #books: Books
  readonly #accounts = new Map<string, number>()
  #forms = 0

  constructor(books: Books) {
    this.#books = books
  }

  build(): void {
    const bench = this.#setUpSides()
    this.#opening(bench)
    this.#handKept(bench)
    const files = readdirSync(statementsFolder).sort((one, other) =>
      endOf(one) < endOf(other) ? -1 : endOf(one) > endOf(other) ? 1 : one < other ? -1 : 1,
    )
    for (const file of files) this.#readIn(file)
    this.#confirmProposed()
    this.#sortTheRest()
    const ground = {
      books: this.#books,
      act: (on: string) => this.#act(on),
      account: (side: SideId, name: string) => this.#account({ side, name }),
    }
    reconcileAccounts(ground)
    closeYears(ground)
    listOwned(ground)
    this.#standing()
    this.#plan()
    writeNotebook(ground)
  }

  #setUpSides(): SideId {
    const began = () => this.#act('2023-11-01')
    done(addSide(this.#books, began(), { kind: 'farm', name: 'Wrenfold' }))
    done(addSide(this.#books, began(), { kind: 'household', name: 'Mara, Teo and Junie' }))
    const { sideId } = done(addSide(this.#books, began(), { kind: 'venture', name: 'Repair bench' }))
    done(addAccount(this.#books, began(), { sideId, name: 'Cash box', kind: 'asset', cashRole: 'cash' }))
    for (const account of listAccounts(this.#books))
      this.#accounts.set(`${account.sideId}/${account.name}`, account.id)
    return sideId
  }

  #opening(bench: SideId): void {
    this.#open('farm', [['Farm checking', openingCents.farm]])
    this.#open('household', [
      ['Household checking', openingCents.household],
      ['Savings', openingCents.savings],
      ['Retirement, traditional', 134_000_00],
      ['Retirement, Roth', 16_500_00],
    ])
    this.#open(bench, [['Cash box', 240_00]])
  }

  #open(side: SideId, balances: readonly (readonly [string, number])[]): void {
    const entry = openingEntry(
      { id: '', sideId: side, day: firstDay, payee: '', memo: 'What was there at the start' },
      systemAccount(this.#books, side, 'opening_balances').id,
      balances.map(([name, balance]) => ({
        account: findAccount(this.#books, this.#account({ side, name }))!,
        balanceCents: cents(balance),
      })),
    )
    done(postEntry(this.#books, this.#act(firstDay), entry!))
  }

  /** The bench's cash box, and farm goods used at home each quarter. */
  #handKept(bench: SideId): void {
    const box = this.#account({ side: bench, name: 'Cash box' })
    const earned = this.#account({ side: bench, name: 'Sales and fees earned' })
    const parts = this.#account({ side: bench, name: 'Supplies' })
    for (const made of benchMonths()) {
      const on = lastDayOf(made.inMonth)
      const entry = { sideId: bench, payee: '', day: on, source: 'form' as const }
      const take = (memo: string, accountId: number, amount: number) =>
        done(
          postEntry(this.#books, this.#act(on), {
            ...entry,
            memo,
            lines: [
              { accountId: box, amountCents: cents(amount) },
              { accountId, amountCents: cents(-amount) },
            ],
          }),
        )
      take('Repairs of the month', earned, made.takings)
      take('Parts of the month', parts, -made.parts)
      done(
        postCrossing(this.#books, this.#act(on), {
          kind: 'draw',
          day: postedInMonth(made.inMonth, 28),
          amountCents: cents(made.handedOver),
          fromAccountId: box,
          toAccountId: this.#account({ side: 'household', name: 'Household checking' }),
          memo: 'Bench money of the month',
        }),
      )
    }
    for (const inMonth of sampleMonths.filter((each) => monthOfYear(each) % 3 === 0))
      this.#goodsUsed(lastDayOf(inMonth))
  }

  #goodsUsed(on: Day): void {
    const season = on.slice(5, 7)
    const isSummer = season === '06' || season === '09'
    const goods = [
      {
        what: 'Vegetables',
        quantity: isSummer ? 13 : 4,
        unit: 'boxes',
        price: isSummer ? 15_00 : 12_00,
      },
      { what: 'Honey', quantity: isSummer ? 4 : 3, unit: 'jars', price: 12_00 },
      ...(season === '12' && on > '2025'
        ? [{ what: 'A lamb for the freezer', quantity: 1, unit: 'lamb', price: 315_00 }]
        : []),
    ]
    for (const { what, quantity, unit, price } of goods)
      done(
        postCrossing(this.#books, this.#act(on), {
          kind: 'goods_used_at_home',
          day: on,
          amountCents: cents(quantity * price),
          fromAccountId: systemAccount(this.#books, 'farm', 'goods_value').id,
          toAccountId: systemAccount(this.#books, 'household', 'goods_cost').id,
          memo: what,
          goods: { quantity, unit, unitPriceCents: cents(price) },
        }),
      )
  }

  #readIn(fileName: string): void {
    const bytes = readFileSync(join(statementsFolder, fileName))
    const { statement, format } = readSample(fileName, bytes)
    const accountId = this.#account(bankAccounts[fileName.split('-')[0] as BankAccountName])
    done(
      importStatement(
        this.#books,
        this.#act(endOf(fileName)),
        accountId,
        {
          format,
          fileName,
          contentHash: createHash('sha256').update(bytes).digest('hex'),
          statement,
          mappingId: null,
        },
        endOf(fileName),
      ),
    )
  }

  /** Bench money is in the books already; transfers are seen from both sides. */
  #confirmProposed(): void {
    const choices = sortingDesk(this.#books).lines.flatMap(({ line, proposal }): Sorting[] => {
      if (proposal?.kind === 'entry')
        return [{ lineId: line.id, kind: 'entry', postingId: proposal.postingId }]
      if (proposal?.kind !== 'transfer' || line.amount > 0) return []
      const isReimbursement = line.payee.includes('REIMBURSE')
      return [
        {
          lineId: line.id,
          kind: 'transfer',
          otherLineId: proposal.otherLine.id,
          ...(isReimbursement ? { crossingKind: 'reimbursement' as const } : {}),
        },
      ]
    })
    done(sortLines(this.#books, this.#act('2026-11-02'), choices))
  }

  #sortTheRest(): void {
    const choices = sortingDesk(this.#books)
      .lines.filter(({ line }) => line.day <= sortedUntil || line.payee === 'INTEREST PAID')
      .map(({ line }) => this.#choiceFor(line))
    done(sortLines(this.#books, this.#act('2026-11-02'), choices))
  }

  #choiceFor(line: {
    id: number
    sideId: SideId
    day: Day
    amount: Cents
    payee: string
    memo: string
  }): Sorting {
    const destination = destinationOf({
      side: line.sideId,
      day: line.day,
      payee: line.payee,
      memo: line.memo,
    })
    if (destination.kind === 'account') {
      const { to } = destination
      const target = {
        kind: 'account',
        accountId: this.#account(to),
        enterpriseId: to.enterprise ?? null,
      } as const
      return { lineId: line.id, kind: 'target', target }
    }
    const sizes = allocate(
      cents(Math.abs(line.amount)),
      destination.parts.map((part) => part.weight),
    )
    return {
      lineId: line.id,
      kind: 'split',
      parts: destination.parts.map(({ to }, at) => ({
        accountId: this.#account(to),
        size: sizes[at]!,
        enterpriseId: to.enterprise ?? null,
      })),
    }
  }

  /** The draw of the 5th goes on: it waits for a yes. */
  #standing(): void {
    done(
      startStanding(this.#books, this.#act('2026-10-30'), {
        name: 'Draw for the household',
        kind: 'draw',
        fromAccountId: this.#account({ side: 'farm', name: 'Farm checking' }),
        toAccountId: this.#account({ side: 'household', name: 'Household checking' }),
        amountCents: cents(1_700_00),
        dayOfMonth: 5,
        firstMonth: month(2026, 11),
        lastMonth: null,
        posting: 'confirm',
        memo: 'Monthly draw',
      }),
    )
  }

  #plan(): void {
    const document = JSON.parse(readFileSync(join(sampleFolder, 'plan.json'), 'utf8')) as {
      name: string
      planVersion: number
    }
    const saved = savePlan(this.#books, this.#act('2026-11-02'), {
      planId: 'sample-plan',
      basedOn: 0,
      name: document.name,
      schemaVersion: document.planVersion,
      document,
    })
    if (!saved.ok) throw new Error(`The sample plan cannot be saved: ${JSON.stringify(saved)}`)
  }

  #account(named: NamedAccount): number {
    const id = this.#accounts.get(`${named.side}/${named.name}`)
    if (id === undefined)
      throw new Error(`The sample names an account that is not there: ${named.side}/${named.name}`)
    return id
  }

  #act(onDay: string): Act {
    this.#forms += 1
    return { formId: `sample-${this.#forms}`, at: `${onDay}T18:00:00.000Z`, actor: 'sample' }
  }
}

const bankAccounts: Record<BankAccountName, NamedAccount> = {
  farm: { side: 'farm', name: 'Farm checking' },
  household: { side: 'household', name: 'Household checking' },
  savings: { side: 'household', name: 'Savings' },
}

/** `farm-2023-11-to-2024-04.ofx` was downloaded on the second day of May 2024. */
const endOf = (fileName: string): Day => {
  const [, year, at] = /-to-(\d{4})-(\d{2})\./.exec(fileName)!
  return dayInMonth(addMonths(month(Number(year), Number(at)), 1), 2)
}

const readSample = (fileName: string, bytes: Uint8Array): { statement: Statement; format: 'ofx' | 'csv' } => {
  const opened = openBankFile(bytes)
  if (opened.ok && opened.format === 'ofx') return { statement: opened.statements[0]!, format: 'ofx' }
  const mapped = opened.ok && opened.format === 'csv' ? readCsv(opened.text, opened.sketch.guess) : opened
  if (!mapped.ok) throw new Error(`${fileName} cannot be read: ${mapped.message}`)
  if (!('statements' in mapped)) throw new Error(`${fileName} cannot be read`)
  return { statement: mapped.statements[0]!, format: 'csv' }
}

const done = <Result>(outcome: Outcome<Result>): Result => {
  if (!outcome.ok) throw new Error(`The sample cannot be built: ${JSON.stringify(outcome.problems)}`)
  return outcome.result
}
