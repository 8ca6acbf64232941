package quadrille.diary.file;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.audit.DiaryRule;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;

/**
 * What the audit finds after a change. Nobody is kept from a change by what others left behind.
 *
 * @param made what the change makes, or makes worse: it stops the change
 * @param left what was there before, and is shown
 */
public record DiaryVerdict(List<DiaryFinding> made, List<DiaryFinding> left) {

  public DiaryVerdict {
    made = List.copyOf(made);
    left = List.copyOf(left);
  }

  /**
   * Parts findings. One is made by the change if it was not there, or was less; or if what it was
   * found at has been put where it is by the change.
   */
  static DiaryVerdict of(Diary before, List<DiaryFinding> was, Diary after, List<DiaryFinding> is) {
    List<DiaryFinding> made = new ArrayList<>();
    List<DiaryFinding> left = new ArrayList<>();
    Set<String> placed = placed(before, after);
    Map<Thing, Long> known = new LinkedHashMap<>();
    for (DiaryFinding finding : was) {
      // Of two that stand against each other, either may be the one that it is found at.
      known.merge(Thing.of(finding), finding.amount(), Math::max);
      known.merge(Thing.of(finding).otherWay(), finding.amount(), Math::max);
    }
    for (DiaryFinding finding : is) {
      boolean there = known.getOrDefault(Thing.of(finding), 0L) >= finding.amount();
      boolean moved = placed.contains(finding.booking()) || placed.contains(finding.against());
      (there && !moved ? left : made).add(finding);
    }
    return new DiaryVerdict(made, left);
  }

  /** What is wrong, by however much. */
  private record Thing(DiaryRule rule, String booking, String against) {

    static Thing of(DiaryFinding finding) {
      return new Thing(finding.rule(), finding.booking(), finding.against());
    }

    Thing otherWay() {
      return new Thing(rule, against, booking);
    }
  }

  /** The bookings that are new, or elsewhere than they were. */
  private static Set<String> placed(Diary before, Diary after) {
    Map<String, Booking> then = new LinkedHashMap<>();
    before.bookings().forEach(booking -> then.put(booking.id(), booking));
    Set<String> placed = new LinkedHashSet<>();
    for (Booking booking : after.bookings()) {
      Booking was = then.get(booking.id());
      if (was == null || booking.elsewhere(was)) {
        placed.add(booking.id());
      }
    }
    return placed;
  }
}
