package quadrille.treatment.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.anaesthesia.Refusal;

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

  private static List<Doubt.Dose> doses(CourseLog log) {
    return Doubts.of(log).stream()
        .filter(Doubt.Dose.class::isInstance)
        .map(Doubt.Dose.class::cast)
        .toList();
  }

  @Test
  void ordinaryVisitsAreNotDoubted() {
    assertEquals(
        List.of(), Doubts.of(log(visit(1, MONDAY, 3.4), visit(2, MONDAY.plusDays(7), 3.4))));
    assertEquals(List.of(), Doubts.of(log(visit(1, MONDAY, 0), visit(2, MONDAY, 0))), "one day");
  }

  @Test
  void aVisitDatedBeforeTheOneRecordedBeforeItIsDoubted() {
    assertEquals(
        List.of(new Doubt.DatedBefore(3, 2, MONDAY.minusDays(1), 1, MONDAY)),
        Doubts.of(log(visit(1, MONDAY, 0), visit(2, MONDAY.minusDays(1), 0))));
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
    List<Doubt.Dose> over = doses(log(visit(1, MONDAY, 13)));
    assertTrue(
        over.stream().anyMatch(dose -> dose.visit() == 1 && isOver(dose, 520, 493.5)),
        over.toString());
    assertEquals(
        List.of(),
        doses(log(visit(1, MONDAY, 12.3))).stream()
            .filter(dose -> dose.refusal() instanceof Refusal.TooMuch)
            .toList());
  }

  private static boolean isOver(Doubt.Dose dose, double given, double most) {
    return dose.refusal() instanceof Refusal.TooMuch over
        && Math.abs(over.of().given() - given) < 0.05
        && Math.abs(over.of().most() - most) < 0.05;
  }

  @Test
  void whatWasGivenEarlierThatDayCounts() {
    CourseLog oneDay = log(visit(1, MONDAY, 8), visit(2, MONDAY, 8));
    assertTrue(
        doses(oneDay).stream().anyMatch(dose -> dose.visit() == 2 && isOver(dose, 640, 493.5)),
        doses(oneDay).toString());
    assertTrue(
        doses(log(visit(1, MONDAY, 8), visit(2, MONDAY.plusDays(7), 8))).stream()
            .noneMatch(dose -> dose.refusal() instanceof Refusal.TooMuch));
  }

  @Test
  void aCorrectionThatThePlanDoesNotKnowOfIsDoubted() {
    Event again = new Event.Replanned(SampleLogs.course(2), SampleLogs.chart(), List.of());
    CourseLog log =
        log(
            visit(1, MONDAY, 0),
            again,
            new Corrected(2, visit(1, MONDAY.plusDays(1), 0), "the day"));
    assertEquals(List.of(new Doubt.CorrectedSince(4, 1, 3)), Doubts.of(log));
  }

  @Test
  void anEntryBringsOnlyItsOwnDoubts() {
    CourseLog before = log(visit(1, MONDAY, 13));
    LogEntry entry = new LogEntry(3, SampleLogs.NINE, visit(2, MONDAY.minusDays(2), 0));
    List<Doubt> brought = Doubts.broughtBy(entry, before);
    assertEquals(List.of(2), brought.stream().map(Doubt::visit).toList());
  }
}
