// Medians and the like, and lines of a table.

export function quantile(numbers, part) {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
}

export const median = (numbers) => quantile(numbers, 0.5);

/** One line of a table: the first word to the left, all others to the right. */
export function line(first, ...others) {
  return first.padEnd(24) + others.map((word) => String(word).padStart(16)).join('');
}
