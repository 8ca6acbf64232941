package quadrille.cli.render.page;

import java.util.Collection;

/** How large the type of a sheet may be, so that it fills one side of paper and no more. */
final class TypeSize {

  /** The most lines that a sheet holds at each size, largest type first; tried on Letter paper. */
  private static final int[] LINES = {27, 30, 33, 36};

  private TypeSize() {}

  /**
   * The style class of a sheet.
   *
   * @param lines how many lines of text its longest column holds
   */
  static String of(double lines) {
    int size = 1;
    while (size <= LINES.length && lines > LINES[size - 1]) {
      size++;
    }
    return "type-" + size;
  }

  /** Whether so many lines may be more than one side holds even in the smallest type. */
  static boolean beyond(double lines) {
    return lines > LINES[LINES.length - 1];
  }

  /** About how many lines some texts fill in a column of so many letters. */
  static int lines(Collection<String> texts, int letters) {
    return texts.stream().mapToInt(text -> (text.length() + letters - 1) / letters).sum();
  }
}
