/** An address for a camera. */
import { codeOf, codePath } from './code-of.ts';

interface QrCodeProps {
  readonly address: string;
  readonly label: string;
}

export function QrCode({ address, label }: QrCodeProps) {
  const code = codeOf(address);
  return (
    <svg
      class="code"
      viewBox={`0 0 ${code.size} ${code.size}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
    >
      <rect width={code.size} height={code.size} class="code-light" />
      <path d={codePath(code)} class="code-dark" />
    </svg>
  );
}
