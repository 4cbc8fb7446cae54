// The pages of the house, in the order they stand in the row of pages.
export const navigation = [
  { path: '/now', name: 'Now' },
  { path: '/books', name: 'Books' },
  { path: '/crossings', name: 'Crossings' },
  { path: '/runway', name: 'Runway' },
  { path: '/cover', name: 'Cover' },
  { path: '/farm', name: 'Farm' },
  { path: '/slower-years', name: 'Slower years' },
  { path: '/year-pack', name: 'Year pack' },
  { path: '/settings', name: 'Settings' },
] as const

/** The page an address belongs to: `/books/accounts/3` is part of Books. */
export const pageOf = (path: string): string =>
  navigation.find((page) => path === page.path || path.startsWith(`${page.path}/`))?.path ?? '/now'
