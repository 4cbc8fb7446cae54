// In which dollars this browser wants the plan's amounts: kept in its cookie, read by every page of the plan.
import { getCookie, setCookie } from 'hono/cookie'
import { type Dollars, dollarsOfTheYear, todaysDollars } from '#runway/dollars/dollars.ts'
import type { PageContext } from './answer.tsx'

const dollarsCookie = 'dooryard-dollars'

export const dollarsOf = (c: PageContext): Dollars =>
  getCookie(c, dollarsCookie) === 'year' ? dollarsOfTheYear : todaysDollars(c.var.web.today())

export const keepDollars = (c: PageContext, of: Dollars['of']): void =>
  setCookie(c, dollarsCookie, of, {
    path: '/',
    httpOnly: true,
    sameSite: 'Strict',
    secure: c.req.url.startsWith('https:'),
    maxAge: 31_536_000,
  })
