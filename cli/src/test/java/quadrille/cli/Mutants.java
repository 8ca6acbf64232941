package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/** Texts changed as files are by slips, half writes, other programs and malice; by a seed. */
public final class Mutants {

  /** What nobody means, or what stands at the edge of what a number, a day or a text may be. */
  public static final List<String> EDGES =
      List.of(
          "",
          " ",
          "-1",
          "0",
          "1",
          "0.5",
          "-0.0",
          "1e9",
          "1e400",
          "NaN",
          "99999999999999999999",
          "2147483648",
          "null",
          "true",
          "[]",
          "{}",
          "\"",
          "'",
          "\\",
          "=",
          "a=b",
          "..",
          "-",
          "%",
          "%s",
          "${7*7}",
          "<script>",
          "\u0000",
          "\u001b[31m",
          "\u202eK-1",
          "\u2028",
          "\u00a0",
          "\ud83e\uddb7",
          "\ud83e",
          "\ufeff",
          "2026-02-30",
          "9999-12-31",
          "0000-01-01",
          "2026-03-29T02:30",
          "24:00",
          "16",
          "55",
          "x".repeat(3_000),
          "[".repeat(2_000));

  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");
  private static final Pattern QUOTED = Pattern.compile("\"[^\"\\n]*\"");

  private final Random random;

  public Mutants(Random random) {
    this.random = random;
  }

  /** One of some. */
  public <T> T any(List<T> some) {
    return some.get(random.nextInt(some.size()));
  }

  /** With one chance in so many. */
  public boolean oneIn(int many) {
    return random.nextInt(many) == 0;
  }

  /**
   * A text with one change, or three.
   *
   * @param other of the same kind, of which pieces are taken
   */
  public String of(String text, String other) {
    String changed = text;
    for (int changes = oneIn(3) ? 3 : 1; changes > 0; changes--) {
      changed = once(changed, other);
    }
    return changed;
  }

  /** The same as bytes, which now and then are no UTF-8. */
  public byte[] bytes(String text, String other) {
    byte[] bytes = of(text, other).getBytes(UTF_8);
    if (bytes.length > 0 && oneIn(20)) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    return bytes;
  }

  private String once(String text, String other) {
    return switch (random.nextInt(9)) {
      // Half written.
      case 0 -> text.substring(0, place(text));
      // The beginning of one and the end of another.
      case 1 -> text.substring(0, place(text)) + other.substring(place(other));
      case 2 -> span(text, "");
      case 3 -> span(text, any(EDGES));
      case 4 -> {
        int at = place(text);
        yield text.substring(0, at) + any(EDGES) + text.substring(at);
      }
      case 5, 6 -> replaced(text, NUMBER, any(EDGES));
      case 7 -> replaced(text, QUOTED, oneIn(2) ? any(EDGES) : "\"" + any(EDGES) + "\"");
      default -> lines(text, other);
    };
  }

  private int place(String text) {
    return random.nextInt(text.length() + 1);
  }

  private String span(String text, String instead) {
    int from = place(text);
    int to = Math.min(text.length(), from + random.nextInt(oneIn(4) ? 400 : 12));
    return text.substring(0, from) + instead + text.substring(to);
  }

  private String replaced(String text, Pattern pattern, String instead) {
    List<MatchResult> found = pattern.matcher(text).results().toList();
    if (found.isEmpty()) {
      return text + instead;
    }
    MatchResult one = any(found);
    return text.substring(0, one.start()) + instead + text.substring(one.end());
  }

  /** A line twice, gone, elsewhere, many times, or from the other text. */
  private String lines(String text, String other) {
    List<String> lines = new ArrayList<>(Arrays.asList(text.split("\n", -1)));
    List<String> others = Arrays.asList(other.split("\n", -1));
    int at = random.nextInt(lines.size());
    switch (random.nextInt(5)) {
      case 0 -> lines.add(at, lines.get(at));
      case 1 -> lines.remove(at);
      case 2 -> lines.add(random.nextInt(lines.size()), lines.remove(at));
      case 3 -> {
        for (int i = 0; i < 300; i++) {
          lines.add(at, lines.get(at));
        }
      }
      default -> lines.set(at, any(others));
    }
    return String.join("\n", lines);
  }
}
