package quadrille.document;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** How faults put things into words. */
public final class FaultWords {

  private static final int QUOTED_LENGTH = 60;

  /** So many words are listed, or looked through for the one that was meant. */
  private static final int MOST_WORDS = 100;

  /** All time zones are some 600; a list in a file may be of any length. */
  private static final int MOST_COMPARED = 1000;

  private FaultWords() {}

  /** {@code a, b or c}. */
  public static String either(List<String> words) {
    return listed(words, " or ");
  }

  /** {@code a, b and c}. */
  public static String all(List<String> words) {
    return listed(words, " and ");
  }

  private static String listed(List<String> words, String before) {
    if (words.isEmpty()) {
      return "nothing";
    }
    int last = words.size() - 1;
    if (last >= MOST_WORDS) {
      int more = words.size() - MOST_WORDS;
      return String.join(", ", words.subList(0, MOST_WORDS)) + before + more + " more";
    }
    return last == 0
        ? words.get(0)
        : String.join(", ", words.subList(0, last)) + before + words.get(last);
  }

  /** {@code a, b or c}, and the one that was probably meant: {@code . Did you mean "b"?}. */
  public static String either(List<String> words, String written) {
    // Where only one will do, it need not be suggested.
    return either(words) + (words.size() == 1 ? "" : suggestion(words, written));
  }

  /** The one that was probably meant: {@code . Did you mean "b"?}; empty where none is near. */
  public static String suggestion(List<String> words, String written) {
    return nearest(words, written).map(word -> ". Did you mean \"" + word + "\"?").orElse("");
  }

  /**
   * The word that was probably meant: at most a third of its letters differ, whatever their case.
   */
  public static Optional<String> nearest(List<String> words, String written) {
    if (written.length() > QUOTED_LENGTH) {
      return Optional.empty();
    }
    String lower = written.strip().toLowerCase(Locale.ROOT);
    String best = null;
    int least = Integer.MAX_VALUE;
    for (String word : words.subList(0, Math.min(words.size(), MOST_COMPARED))) {
      int slips = Math.max(1, word.length() / 3);
      if (Math.abs(word.length() - lower.length()) > slips) {
        continue;
      }
      int distance = distance(word.toLowerCase(Locale.ROOT), lower);
      if (distance <= slips && distance < least) {
        best = word;
        least = distance;
      }
    }
    // One letter for another one-letter word is no slip of the keyboard.
    return Optional.ofNullable(best).filter(word -> lower.length() > 1 || word.length() > 2);
  }

  /** In quotes, on one line, and cut where long. */
  public static String quote(String text) {
    return '"' + plain(text, QUOTED_LENGTH) + '"';
  }

  /** On one line and cut where long: nothing in a document may forge a line of a message. */
  static String plain(String text, int most) {
    StringBuilder shown = new StringBuilder();
    int count = 0;
    for (int at = 0; at < text.length(); ) {
      int point = text.codePointAt(at);
      if (count++ == most) {
        return shown.append('…').toString();
      }
      switch (Character.getType(point)) {
        case Character.CONTROL,
            Character.FORMAT,
            Character.SURROGATE,
            Character.LINE_SEPARATOR,
            Character.PARAGRAPH_SEPARATOR ->
            shown.append(String.format(Locale.ROOT, "\\u%04x", point));
        default -> shown.appendCodePoint(point);
      }
      at += Character.charCount(point);
    }
    return shown.toString();
  }

  /** Letters put in, left out, changed, or swapped with the next one. */
  private static int distance(String a, String b) {
    int[][] cost = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i + j;
          continue;
        }
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        int least = Math.min(cost[i - 1][j], cost[i][j - 1]) + 1;
        least = Math.min(least, cost[i - 1][j - 1] + change);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          least = Math.min(least, cost[i - 2][j - 2] + 1);
        }
        cost[i][j] = least;
      }
    }
    return cost[a.length()][b.length()];
  }
}
