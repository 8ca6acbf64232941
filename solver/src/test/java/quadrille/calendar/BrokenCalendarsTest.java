package quadrille.calendar;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.reading.InvalidDocumentException;

final class BrokenCalendarsTest {

  record Broken(String title, String text, String faults) {
    @Override
    public String toString() {
      return title;
    }
  }

  static List<Broken> cases() {
    List<Broken> cases = new ArrayList<>();
    List<String> parts = List.of(file().split("(?m)^=== "));
    for (String part : parts.subList(1, parts.size())) {
      int end = part.indexOf('\n');
      int faults = part.indexOf("\n--> ", end);
      cases.add(
          new Broken(
              part.substring(0, end),
              part.substring(end + 1, faults + 1),
              part.substring(faults + 1).strip().replaceAll("(?m)^--> ", "")));
    }
    return cases;
  }

  private static String file() {
    try (InputStream in = BrokenCalendarsTest.class.getResourceAsStream("broken-calendars.txt")) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void isRefusedWithTheseWords(Broken broken) {
    InvalidDocumentException invalid =
        assertThrows(
            InvalidDocumentException.class,
            () ->
                CalendarReader.read(
                    "ada.ics",
                    broken.text().getBytes(StandardCharsets.UTF_8),
                    Ics.ROME,
                    Ics.YEAR_2026));
    assertEquals(broken.faults(), invalid.getMessage(), broken::text);
  }

  @Test
  void bytesThatAreNoUtf8AreRefused() {
    byte[] latin =
        "BEGIN:VCALENDAR\nX-NAME:\u00e9\nEND:VCALENDAR\n".getBytes(StandardCharsets.ISO_8859_1);
    InvalidDocumentException invalid =
        assertThrows(
            InvalidDocumentException.class,
            () -> CalendarReader.read("ada.ics", latin, Ics.ROME, Ics.YEAR_2026));
    assertEquals(
        "ada.ics:2: found a byte that is not UTF-8 (0xE9); allowed: text in UTF-8; save or export"
            + " the file as UTF-8",
        invalid.getMessage());
  }

  @Test
  void theTableIsReadInFull() {
    assertEquals(30, cases().size());
  }
}
