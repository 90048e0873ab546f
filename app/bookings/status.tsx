import { Tag } from '../ui/tag'

const WORDS = {
  requested: { tone: 'waiting', word: 'Asked for' },
  approved: { tone: 'good', word: 'Booked' },
  declined: { tone: 'stop', word: 'Declined' },
  cancelled: { tone: 'plain', word: 'Cancelled' },
} as const

export const BookingTag = ({ status }: { readonly status: keyof typeof WORDS }) => (
  <Tag tone={WORDS[status].tone}>{WORDS[status].word}</Tag>
)
