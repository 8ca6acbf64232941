package quadrille.diary.calendar;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

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
  void moreRulesThanAreRead() {
    byte[] many =
        ("BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:1\nDTSTART:20160302T090000Z\n"
                + "RRULE:FREQ=DAILY;UNTIL=20160303\n".repeat(40_001)
                + "END:VEVENT\nEND:VCALENDAR\n")
            .getBytes(StandardCharsets.UTF_8);
    InvalidDocumentException invalid =
        assertThrows(
            InvalidDocumentException.class,
            () -> CalendarReader.read("ada.ics", many, Ics.ROME, Ics.YEAR_2026));
    assertTrue(
        invalid.getMessage().endsWith("allowed: at most 40000 rules in a calendar"),
        invalid.getMessage());
  }

  @Test
  void theLineOfABrokenLetterIsThatOfTheFile() {
    byte[] latin =
        "BEGIN:VCALENDAR\nX-A:folded\n here\nX-NAME:\u00e9\nEND:VCALENDAR\n"
            .getBytes(StandardCharsets.ISO_8859_1);
    assertTrue(
        assertThrows(
                InvalidDocumentException.class,
                () -> CalendarReader.read("ada.ics", latin, Ics.ROME, Ics.YEAR_2026))
            .getMessage()
            .startsWith("ada.ics:4: found a byte that is not UTF-8"));
  }

  @Test
  void theTableIsReadInFull() {
    assertEquals(36, cases().size());
  }
}
