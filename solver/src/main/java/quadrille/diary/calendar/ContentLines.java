package quadrille.diary.calendar;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Place;
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
    byte[] line = new byte[128];
    List<Line> lines = new ArrayList<>();
    int length = 0;
    int first = 1;
    int number = 1;
    int at = startsWithMark(bytes) ? 3 : 0;
    while (at < bytes.length) {
      if (bytes[at] != '\r' && bytes[at] != '\n') {
        if (length == line.length) {
          line = Arrays.copyOf(line, Math.min(bytes.length, 2 * length));
        }
        line[length++] = bytes[at++];
        continue;
      }
      at += bytes[at] == '\r' && at + 1 < bytes.length && bytes[at + 1] == '\n' ? 2 : 1;
      number++;
      if (at < bytes.length && (bytes[at] == ' ' || bytes[at] == '\t')) {
        at++;
      } else {
        add(lines, source, first, Arrays.copyOf(line, length));
        length = 0;
        first = number;
      }
    }
    add(lines, source, first, Arrays.copyOf(line, length));
    return new ContentLines(lines);
  }

  private static void add(List<Line> lines, String source, int number, byte[] bytes)
      throws InvalidDocumentException {
    String text = new String(bytes, UTF_8);
    if (text.indexOf('\uFFFD') >= 0) {
      check(source, number, bytes);
    }
    if (!text.isBlank()) {
      lines.add(new Line(number, text));
    }
  }

  /** Whether a replacement character stands in the file, or for bytes that are none. */
  private static void check(String source, int number, byte[] bytes)
      throws InvalidDocumentException {
    try {
      TextFiles.decode(source, bytes);
    } catch (InvalidDocumentException wrong) {
      Fault fault = wrong.faults().get(0);
      throw new InvalidDocumentException(
          List.of(
              new Fault(
                  new Place(source, number, 1, "").toString(), fault.found(), fault.allowed())));
    }
  }

  private static boolean startsWithMark(byte[] bytes) {
    return bytes.length >= 3
        && (bytes[0] & 0xFF) == 0xEF
        && (bytes[1] & 0xFF) == 0xBB
        && (bytes[2] & 0xFF) == 0xBF;
  }
}
