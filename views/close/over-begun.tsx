// The yes to closing a month over a reconciliation that was begun.
export interface OverBegunProps {
  account: { id: number; name: string }
  name: string
  isTicked: boolean
}

export const OverBegun = ({ account, name, isTicked }: OverBegunProps) => {
  const id = `begun-${account.id}`
  return (
    <p class="choice">
      <input type="checkbox" id={id} name={name} value={String(account.id)} checked={isTicked} />
      <label for={id}>Yes, close although reconciling {account.name} is not finished</label>
    </p>
  )
}
