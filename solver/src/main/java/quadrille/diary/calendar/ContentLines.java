package quadrille.diary.calendar;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;

/**
 * The content lines of an iCalendar stream (RFC 5545 section 3.1), unfolded, each with the number
 * of the line that it starts on. Any line ends will do, and blank lines are passed over. Folds are
 * taken out of the bytes before they are decoded, since a fold may part the bytes of one character.
 */
record ContentLines(List<Line> lines) {

  /**
   * A content line.
   *
   * @param number of its first line in the file, from 1
   */
  record Line(int number, String text) {}

  static ContentLines of(String source, byte[] bytes) throws InvalidDocumentException {
    byte[] unfolded = new byte[bytes.length];
    List<Integer> numbers = new ArrayList<>(List.of(1));
    int length = 0;
    int number = 1;
    int at = startsWithMark(bytes) ? 3 : 0;
    while (at < bytes.length) {
      if (bytes[at] != '\r' && bytes[at] != '\n') {
        unfolded[length++] = bytes[at++];
        continue;
      }
      at += bytes[at] == '\r' && at + 1 < bytes.length && bytes[at + 1] == '\n' ? 2 : 1;
      number++;
      if (at < bytes.length && (bytes[at] == ' ' || bytes[at] == '\t')) {
        at++;
      } else {
        unfolded[length++] = '\n';
        numbers.add(number);
      }
    }
    String text = TextFiles.decode(source, Arrays.copyOf(unfolded, length));
    List<Line> lines = new ArrayList<>();
    int index = 0;
    for (String line : text.split("\n", -1)) {
      if (!line.isBlank()) {
        lines.add(new Line(numbers.get(index), line));
      }
      index++;
    }
    return new ContentLines(List.copyOf(lines));
  }

  private static boolean startsWithMark(byte[] bytes) {
    return bytes.length >= 3
        && (bytes[0] & 0xFF) == 0xEF
        && (bytes[1] & 0xFF) == 0xBB
        && (bytes[2] & 0xFF) == 0xBF;
  }
}
