// What money that lies in accounts earns a year: the plan has one rate that bills and savings accounts pay, and each account a share that earns
// it. An account of the books that pays otherwise than the rest is an account of the plan by itself, tied to it by its number.
import type { Plan } from '../plan.ts'
import type { Account } from '../savings-plan.ts'

/** An account of the household's books in which money lies, dollars. */
export interface MoneyAccount {
  number: number
  name: string
  balance: number
}

/** The account of the plan that holds one of the books, by its number there. */
export const tiedTo = ({ savings }: Pick<Plan, 'savings'>, number: number): Account | undefined =>
  savings.accounts.find((account) => account.kind === 'cash' && account.bookAccount === number)

/** Expected a year, as a fraction; fees are not taken off. */
export const earnsOf = ({ assumptions }: Pick<Plan, 'assumptions'>, { mix }: Pick<Account, 'mix'>): number =>
  mix.stocks * assumptions.stocks + mix.bonds * assumptions.bonds + mix.bills * assumptions.bills

/**
 * The plan in which an account earns `rate` a year; what others earn stays. One that the plan does not hold by itself yet is taken out of
 * the cash it was counted with.
 */
export function withEarning(plan: Plan, money: MoneyAccount, rate: number): Plan {
  const apart = tiedTo(plan, money.number) === undefined ? takenOut(plan, money) : plan
  const own = tiedTo(apart, money.number)!
  const { accounts } = apart.savings
  const before = apart.assumptions.bills
  const isShared = accounts.some((one) => one !== own && one.mix.bills > 0)
  const bills = isShared ? Math.max(before, rate) : rate > 0 ? rate : before
  const share = (earned: number) => (bills > 0 ? Math.max(0, earned) / bills : 0)
  return {
    ...apart,
    assumptions: { ...apart.assumptions, bills },
    savings: {
      ...apart.savings,
      accounts: accounts.map((one) => {
        if (one === own) return { ...one, mix: { stocks: 0, bonds: 0, bills: share(rate) } }
        return bills === before || one.mix.bills === 0
          ? one
          : { ...one, mix: { ...one.mix, bills: share(one.mix.bills * before) } }
      }),
    },
  }
}

/** Behind all other cash, so that what earns nothing is spent first; an order of spending that names the account it comes from names it next. */
function takenOut(plan: Plan, { number, name, balance }: MoneyAccount): Plan {
  const { accounts, spendOrder } = plan.savings
  const id = freeId(accounts, `books-${number}`)
  let left = Math.max(0, balance)
  const rest = accounts.map((one) => {
    if (one.kind !== 'cash' || one.bookAccount !== undefined) return one
    const moved = Math.min(left, one.balance)
    left -= moved
    return moved === 0 ? one : { ...one, balance: one.balance - moved }
  })
  const from = rest.findLastIndex(({ kind }) => kind === 'cash')
  const own: Account = {
    id,
    name,
    kind: 'cash',
    balance: Math.max(0, balance) - left,
    mix: { stocks: 0, bonds: 0, bills: 0 },
    fee: 0,
    heldAs: 'ira',
    evenPaymentsBy: 'lifeExpectancy',
    evenPaymentsRate: 0.05,
    bookAccount: number,
  }
  const beside = accounts[from]?.id
  return {
    ...plan,
    savings: {
      ...plan.savings,
      accounts: [...rest.slice(0, from + 1), own, ...rest.slice(from + 1)],
      spendOrder: spendOrder.includes('cash')
        ? spendOrder
        : spendOrder.flatMap((word) => (word === beside ? [word, id] : [word])),
    },
  }
}

const freeId = (accounts: readonly Account[], wanted: string): string =>
  accounts.some(({ id }) => id === wanted) ? freeId(accounts, `${wanted}-own`) : wanted

/**
 * What each of some accounts holds of `total`: one tied to the books what `held` says there, by its number, the others the rest in the
 * proportions of their balances. Where less is there than the tied ones hold, as when a card owes more than lies beside them, the first of
 * them bear it.
 */
export function partsOf(
  accounts: readonly Account[],
  total: number,
  held: ReadonlyMap<number, number>,
): number[] {
  const tied = accounts.map(({ bookAccount }) => {
    const dollars = bookAccount === undefined ? undefined : held.get(bookAccount)
    return dollars === undefined ? null : Math.max(0, dollars)
  })
  let lacking = Math.max(0, tied.reduce<number>((sum, one) => sum + (one ?? 0), 0) - total)
  const parts = tied.map((one) => {
    if (one === null) return 0
    const taken = Math.min(one, lacking)
    lacking -= taken
    return one - taken
  })
  const rest = Math.max(0, total - parts.reduce((sum, one) => sum + one, 0))
  const planned = accounts.reduce((sum, { balance }, place) => sum + (tied[place] === null ? balance : 0), 0)
  const first = Math.max(0, tied.indexOf(null))
  return parts.map((part, place) => {
    if (planned > 0) return tied[place] === null ? rest * (accounts[place]!.balance / planned) : part
    return place === first ? part + rest : part
  })
}

/** What those tied to the books are expected to hold, by their numbers; `planned` goes by account of the plan. */
export const tiedIn = (
  { savings }: Pick<Plan, 'savings'>,
  planned: readonly number[],
): ReadonlyMap<number, number> =>
  new Map(
    savings.accounts.flatMap(({ bookAccount }, place) =>
      bookAccount === undefined ? [] : [[bookAccount, planned[place] ?? 0] as const],
    ),
  )
