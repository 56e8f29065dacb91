// The words of a note, beside the colour that they name.

export function Noted({ text }: { text: string }) {
  const colour = /#[\da-f]{6}\b/.exec(text)?.[0];
  return <>{colour && <span class="swatch" style={{ background: colour }} />}{text}</>;
}
