package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.course.Entry;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;

/** When the needles of a planned visit come. */
final class NeedleTimeTest {

  /**
   * @param seconds when each of them starts and ends
   */
  private static Visit visit(int... seconds) {
    List<Entry> entries = new ArrayList<>();
    entries.add(new Entry.SetUp(0, Math.max(1, seconds[0])));
    for (int i = 0; i < seconds.length; i += 2) {
      entries.add(
          new Entry.Inject(
              seconds[i],
              seconds[i + 1] - seconds[i],
              new InjectionRef("palatal", Quadrant.values()[0], null)));
    }
    return new Visit(
        1,
        NumbSide.NONE,
        60,
        0,
        List.of(),
        List.of(),
        List.of(),
        0,
        0,
        0,
        0,
        entries,
        List.of(),
        List.of(),
        List.of());
  }

  @Test
  void wholeMinutesAroundEachGroupWithTheMargin() {
    Visit visit = visit(620, 700, 700, 790, 2000, 2101);
    assertEquals(List.of(new NeedleTime(10, 14), new NeedleTime(33, 36)), NeedleTime.of(visit, 0));
    assertEquals(List.of(new NeedleTime(5, 19), new NeedleTime(28, 41)), NeedleTime.of(visit, 5));
    // With so much around them, the two are one.
    assertEquals(List.of(new NeedleTime(0, 46)), NeedleTime.of(visit, 10));
  }

  @Test
  void neverBeforeTheVisitNorAfterIt() {
    assertEquals(List.of(new NeedleTime(0, 7)), NeedleTime.of(visit(60, 120), 5));
    assertEquals(List.of(new NeedleTime(53, 60)), NeedleTime.of(visit(3500, 3550), 5));
  }
}
