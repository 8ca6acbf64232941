package quadrille.treatment.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Quadrant;

final class DoubtsTest {

  private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

  /** The sample's patient weighs 70.5 kg. */
  private static VisitDone visit(int number, LocalDate date, double ml) {
    return new VisitDone(
        number,
        date,
        "C2",
        List.of(),
        ml == 0
            ? List.of()
            : List.of(
                new Given("posterior superior alveolar", Quadrant.UR, null, "articaine-4-200", ml)),
        new TreeMap<>(),
        50.0,
        List.of(),
        60,
        false,
        List.of(),
        "");
  }

  private static CourseLog log(Event... events) {
    List<LogEntry> entries = new ArrayList<>();
    entries.add(new LogEntry(1, SampleLogs.NINE, SampleLogs.planned()));
    for (Event event : events) {
      entries.add(new LogEntry(entries.size() + 1, SampleLogs.NINE, event));
    }
    return new CourseLog(entries, null);
  }

  private static List<String> words(CourseLog log) {
    return Doubts.of(log).stream().map(Doubts.Doubt::words).toList();
  }

  @Test
  void ordinaryVisitsAreNotDoubted() {
    assertEquals(
        List.of(), Doubts.of(log(visit(1, MONDAY, 3.4), visit(2, MONDAY.plusDays(7), 3.4))));
    assertEquals(List.of(), Doubts.of(log(visit(1, MONDAY, 0), visit(2, MONDAY, 0))), "one day");
  }

  @Test
  void aVisitDatedBeforeTheOneRecordedBeforeItIsDoubted() {
    List<Doubts.Doubt> doubts =
        Doubts.of(log(visit(1, MONDAY, 0), visit(2, MONDAY.minusDays(1), 0)));
    assertEquals(1, doubts.size());
    assertEquals(3, doubts.get(0).entry());
    assertEquals(2, doubts.get(0).visit());
    assertEquals(
        "visit 2 is dated 2026-03-01, before visit 1 (2026-03-02), which was recorded before it",
        doubts.get(0).words());
    assertEquals(
        List.of(),
        Doubts.of(
            log(
                visit(1, MONDAY, 0),
                visit(2, MONDAY.minusDays(1), 0),
                new Corrected(3, visit(2, MONDAY.plusDays(7), 0), "mistyped"))),
        "put right");
  }

  /**
   * Articaine 7 mg/kg, at most 500 mg, is what the labels of the 4 % solutions give for adults:
   * 70.5 kg by 7 is 493.5 mg, or 12.3 mL of 40 mg/mL; 13 mL are more.
   */
  @Test
  void aDoseAboveTheMaximumIsDoubtedWithItsNumbers() {
    List<String> over = words(log(visit(1, MONDAY, 13)));
    assertTrue(
        over.stream()
            .anyMatch(
                word ->
                    word.startsWith("visit 1, what it gave by the record: ")
                        && word.contains("520.0 of 493.5")),
        over.toString());
    assertEquals(
        List.of(),
        words(log(visit(1, MONDAY, 12.3))).stream()
            .filter(word -> word.contains("of its maximum"))
            .toList());
  }

  @Test
  void whatWasGivenEarlierThatDayCounts() {
    CourseLog oneDay = log(visit(1, MONDAY, 8), visit(2, MONDAY, 8));
    assertTrue(
        Doubts.of(oneDay).stream()
            .anyMatch(doubt -> doubt.visit() == 2 && doubt.words().contains("640.0 of 493.5")),
        words(oneDay).toString());
    assertTrue(
        words(log(visit(1, MONDAY, 8), visit(2, MONDAY.plusDays(7), 8))).stream()
            .noneMatch(word -> word.contains("of its maximum")));
  }

  @Test
  void aCorrectionThatThePlanDoesNotKnowOfIsDoubted() {
    Event again = new Event.Replanned(SampleLogs.course(2), SampleLogs.chart(), List.of());
    CourseLog log =
        log(
            visit(1, MONDAY, 0),
            again,
            new Corrected(2, visit(1, MONDAY.plusDays(1), 0), "the day"));
    List<Doubts.Doubt> doubts = Doubts.of(log);
    assertEquals(1, doubts.size());
    assertEquals(4, doubts.get(0).entry());
    assertTrue(doubts.get(0).words().contains("planned (entry 3)"), doubts.get(0).words());
  }

  @Test
  void anEntryBringsOnlyItsOwnDoubts() {
    CourseLog before = log(visit(1, MONDAY, 13));
    LogEntry entry = new LogEntry(3, SampleLogs.NINE, visit(2, MONDAY.minusDays(2), 0));
    List<Doubts.Doubt> brought = Doubts.broughtBy(entry, before);
    assertEquals(List.of(2), brought.stream().map(Doubts.Doubt::visit).toList());
  }
}
