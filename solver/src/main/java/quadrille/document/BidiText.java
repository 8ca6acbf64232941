package quadrille.document;

/** Text of others, to be put among words of one's own. */
public final class BidiText {

  private static final int FIRST_STRONG_ISOLATE = 0x2068;
  private static final int POP_ISOLATE = 0x2069;

  private BidiText() {}

  /**
   * The text so that no control of writing direction in it reaches beyond it: one that has none is
   * itself; any other stands between a first strong isolate and its end (Unicode Standard Annex 9),
   * with each isolate that it opens closed, and without an end of one that it did not open. A
   * paragraph separator, which would end the isolate, becomes a space.
   */
  public static String isolated(String text) {
    if (text.codePoints().noneMatch(BidiText::directs)) {
      return text;
    }
    StringBuilder out = new StringBuilder().appendCodePoint(FIRST_STRONG_ISOLATE);
    int open = 1;
    for (int point : text.codePoints().toArray()) {
      if (point >= 0x2066 && point <= FIRST_STRONG_ISOLATE) {
        open++;
      } else if (point == POP_ISOLATE && --open == 0) {
        open = 1;
        continue;
      }
      out.appendCodePoint(
          Character.getDirectionality(point) == Character.DIRECTIONALITY_PARAGRAPH_SEPARATOR
              ? ' '
              : point);
    }
    for (; open > 0; open--) {
      out.appendCodePoint(POP_ISOLATE);
    }
    return out.toString();
  }

  /** Marks, embeddings, overrides, isolates and their ends. */
  private static boolean directs(int point) {
    return point == 0x061C
        || point == 0x200E
        || point == 0x200F
        || point >= 0x202A && point <= 0x202E
        || point >= 0x2066 && point <= POP_ISOLATE;
  }
}
