package quadrille.diary.calendar;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.document.BrokenTexts;
import quadrille.document.InvalidDocumentException;

final class BrokenCalendarsTest {

  static List<BrokenTexts.Case> cases() {
    return BrokenTexts.in(BrokenCalendarsTest.class, "broken-calendars.txt");
  }

  @ParameterizedTest
  @MethodSource("cases")
  void isRefusedWithTheseWords(BrokenTexts.Case broken) {
    InvalidDocumentException invalid =
        assertThrows(
            InvalidDocumentException.class,
            () ->
                CalendarReader.read(
                    "ada.ics",
                    broken.text().getBytes(StandardCharsets.UTF_8),
                    Ics.ROME,
                    Ics.YEAR_2026));
    assertEquals(String.join("\n", broken.faults()), invalid.getMessage(), broken::text);
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
    assertEquals(32, cases().size());
  }
}
