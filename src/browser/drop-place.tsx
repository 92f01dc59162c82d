interface DropPlaceProps {
  readonly isLarge: boolean;
  readonly take: (files: readonly File[]) => void;
}

/** Where files come in, by hand or by keyboard; they may as well be dropped anywhere on the page. */
export function DropPlace({ isLarge, take }: DropPlaceProps) {
  const choose = (event: Event) => {
    const input = event.currentTarget as HTMLInputElement;
    const files = [...(input.files ?? [])];
    // The same file again is a new capture under an old name.
    input.value = '';
    if (files.length > 0) take(files);
  };
  return (
    <div class={isLarge ? 'drop large' : 'drop'}>
      {isLarge ? (
        <>
          <h1>Drop a standing trial here</h1>
          <p>A C3D file; with it, if you like, your laboratory's marker set and the session file.</p>
        </>
      ) : null}
      <label class="button">
        {isLarge ? 'Choose files' : 'Another trial'}
        <input type="file" multiple accept=".c3d,.json" onChange={choose} />
      </label>
      {isLarge ? <p class="private">Nothing is sent anywhere: the check runs inside this page.</p> : null}
    </div>
  );
}
