package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;

/**
 * Text for a person, laid out in 80 columns counted in code points. Whatever is put on a page is
 * cleaned first, so that nothing out of a file can steer a terminal. A no-break space keeps a
 * number with its unit; it is written as a plain space.
 */
final class Page {

  /** The widest line. */
  static final int WIDTH = 80;

  private static final String BOLD = "\u001b[1m";
  private static final String PLAIN = "\u001b[0m";
  private static final char NO_BREAK = '\u00a0';

  private final boolean styled;
  private final StringBuilder text = new StringBuilder();

  /**
   * @param styled whether headings are set off by terminal codes
   */
  Page(boolean styled) {
    this.styled = styled;
  }

  /** A heading, with an empty line before it unless it opens the page. */
  Page heading(String words) {
    if (!text.isEmpty()) {
      text.append('\n');
    }
    for (String line : wrap(clean(words), WIDTH)) {
      put(styled && !line.isEmpty() ? BOLD + line + PLAIN : line);
    }
    return this;
  }

  Page blank() {
    text.append('\n');
    return this;
  }

  /** A line set in columns; its spaces stay, unless it is too wide and has to be wrapped. */
  Page line(String words) {
    String line = clean(words);
    if (length(line) > WIDTH) {
      return paragraph(words);
    }
    put(line);
    return this;
  }

  /** A paragraph from the left edge. */
  Page paragraph(String words) {
    return hang("", 0, words);
  }

  /** A paragraph marked as one of a list. */
  Page item(String words) {
    return hang("- ", 2, words);
  }

  /** Items of a list, each with its mark; nothing for an empty list. */
  Page items(List<String> lines) {
    lines.forEach(this::item);
    return this;
  }

  /**
   * A paragraph whose first line starts with a label, and all of whose lines start in one column.
   *
   * @param label what stands before it; where it is too long for the indent, it has lines of its
   *     own
   * @param indent the column in which the words start
   */
  Page hang(String label, int indent, String words) {
    String margin = " ".repeat(indent);
    String before = clean(label);
    if (length(before) > indent) {
      wrap(before, WIDTH).forEach(this::put);
      before = margin;
    }
    List<String> lines = wrap(clean(words), WIDTH - indent);
    for (int i = 0; i < lines.size(); i++) {
      put(i == 0 ? pad(before, indent) + lines.get(0) : margin + lines.get(i));
    }
    return this;
  }

  /** The page, each line ended by a line feed. */
  String text() {
    return text.toString();
  }

  private void put(String line) {
    text.append(line.replace(NO_BREAK, ' ').stripTrailing()).append('\n');
  }

  /** Fills up with spaces on the right. */
  static String pad(String words, int width) {
    return words + " ".repeat(Math.max(0, width - length(words)));
  }

  /** Fills up with spaces on the left. */
  static String padLeft(String words, int width) {
    return " ".repeat(Math.max(0, width - length(words))) + words;
  }

  /** Length in code points. */
  static int length(String words) {
    return words.codePointCount(0, words.length());
  }

  /**
   * Breaks at spaces, and within a word only where it is wider than the line. Runs of spaces count
   * as one.
   *
   * @return at least one line
   */
  static List<String> wrap(String words, int width) {
    List<String> lines = new ArrayList<>();
    String line = "";
    for (String word : words.strip().split(" +")) {
      String rest = word;
      if (!line.isEmpty() && length(line) + 1 + length(rest) <= width) {
        line += " " + rest;
        continue;
      }
      if (!line.isEmpty()) {
        lines.add(line);
      }
      while (length(rest) > width) {
        int end = rest.offsetByCodePoints(0, width);
        lines.add(rest.substring(0, end));
        rest = rest.substring(end);
      }
      line = rest;
    }
    lines.add(line);
    return lines;
  }

  /**
   * Takes out what could steer a terminal or turn the reading direction: each control character,
   * line break and direction mark becomes a replacement character, a tab or line break a space.
   */
  static String clean(String words) {
    StringBuilder clean = new StringBuilder(words.length());
    words
        .codePoints()
        .map(
            c -> {
              if (c == '\n' || c == '\t') {
                return ' ';
              }
              return switch (Character.getType(c)) {
                case Character.CONTROL,
                    Character.FORMAT,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.SURROGATE ->
                    0xFFFD;
                default -> c;
              };
            })
        .forEach(clean::appendCodePoint);
    return clean.toString();
  }
}
