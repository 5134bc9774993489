/** Why a change cannot be, under the fields that asked for it. */
export function Reason({ reason }: { readonly reason: string | null }) {
  if (reason === null) return null;
  return (
    <p className="reason" role="alert">
      {reason}
    </p>
  );
}
