// The picture of a whole kit: what belongs to a tag stands out, and all else fades.
export function flowThrough(picture) {
  const strands = [...picture.querySelectorAll(".strand")];
  const nodes = [...picture.querySelectorAll(".node")];
  const pieceOf = (strand) => [...strand.classList].find((tag) => tag.startsWith("piece-"));
  const numberOf = (strand) => Number(pieceOf(strand).slice("piece-".length));

  // Follow a tag, or nothing; the numbers of the pieces that are followed come back.
  function follow(tag) {
    const passed = new Set();
    const pieces = [];
    for (const strand of strands) {
      const isFollowed = !tag || strand.classList.contains(tag);
      strand.classList.toggle("faded", !isFollowed);
      if (!isFollowed) continue;
      strand.classList.forEach((each) => passed.add(each));
      if (tag) pieces.push(numberOf(strand));
    }
    for (const node of nodes) node.classList.toggle("faded", !passed.has(tagOf(node)));
    return pieces;
  }

  const tagOf = (node) => [...node.classList].find((tag) => tag !== "node" && tag !== "faded");

  // What is pointed at: a strand by its piece, a node by its own tag.
  function tagAt(event) {
    const strand = event.target.closest(".strand");
    if (strand) return pieceOf(strand);
    const node = event.target.closest(".node");
    return node ? tagOf(node) : "";
  }

  return { follow, tagAt };
}
