package quadrille.diary.calendar;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * RFC 5545, section 3.8.5.3: every example of a recurrence rule, with the expansion printed there.
 */
final class Rfc5545ExamplesTest {

  private static final ZoneId NEW_YORK = ZoneId.of("America/New_York");

  record Example(String title, List<String> lines, List<Instant> times, boolean goesOn) {
    @Override
    public String toString() {
      return title;
    }

    String event() {
      List<String> all = new ArrayList<>(List.of("UID:example"));
      all.addAll(lines);
      all.add("DURATION:PT1M");
      return Ics.calendar(Ics.event(all.toArray(String[]::new)));
    }
  }

  static List<Example> examples() {
    List<Example> examples = new ArrayList<>();
    List<String> parts = List.of(file().split("(?m)^=== "));
    for (String part : parts.subList(1, parts.size())) {
      List<String> lines = part.lines().filter(line -> !line.isBlank()).toList();
      String times = lines.get(lines.size() - 1).substring("--> ".length());
      boolean goesOn = times.endsWith(" more");
      examples.add(
          new Example(
              lines.get(0),
              lines.subList(1, lines.size() - 1),
              times(goesOn ? times.substring(0, times.length() - " more".length()) : times),
              goesOn));
    }
    return examples;
  }

  private static List<Instant> times(String text) {
    List<Instant> times = new ArrayList<>();
    for (String one : text.split(" ")) {
      if (one.contains("T")) {
        times.add(LocalDateTime.parse(one).atZone(NEW_YORK).toInstant());
        continue;
      }
      String[] parts = one.split("\\.\\.|/");
      LocalDate last = LocalDate.parse(parts.length > 1 ? parts[1] : parts[0]);
      int step = parts.length > 2 ? Integer.parseInt(parts[2]) : 1;
      for (LocalDate day = LocalDate.parse(parts[0]);
          !day.isAfter(last);
          day = day.plusDays(step)) {
        times.add(day.atTime(LocalTime.of(9, 0)).atZone(NEW_YORK).toInstant());
      }
    }
    return times;
  }

  private static String file() {
    try (InputStream in = Rfc5545ExamplesTest.class.getResourceAsStream("rfc5545-3.8.5.3.txt")) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static List<Instant> starts(Example example, Interval within) {
    return Ics.read(example.event(), within).occurrences().stream().map(Interval::start).toList();
  }

  /** All that the example gives up to its last printed time, or for twenty years. */
  private static Interval whole(Example example) {
    Instant last = example.times().get(example.times().size() - 1);
    return new Interval(
        Instant.parse("1990-01-01T00:00:00Z"),
        example.goesOn() ? last.plusSeconds(60) : Instant.parse("2017-01-01T00:00:00Z"));
  }

  @ParameterizedTest
  @MethodSource("examples")
  void givesTheTimesPrinted(Example example) {
    assertEquals(example.times(), starts(example, whole(example)));
  }

  /** Looked at from the middle, an event has the same times as from its start. */
  @ParameterizedTest
  @MethodSource("examples")
  void givesTheSameTimesFromTheMiddle(Example example) {
    Instant middle = example.times().get(example.times().size() / 2);
    List<Instant> later =
        example.times().stream()
            .filter(time -> !time.isBefore(middle))
            .collect(Collectors.toList());
    assertEquals(later, starts(example, new Interval(middle, whole(example).end())));
  }

  @Test
  void theTableIsReadInFull() {
    assertEquals(42, examples().size());
  }
}
