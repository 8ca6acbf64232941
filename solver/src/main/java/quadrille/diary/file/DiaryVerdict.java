package quadrille.diary.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import quadrille.diary.audit.DiaryFinding;
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
    for (DiaryFinding finding : is) {
      boolean known =
          was.stream().anyMatch(other -> other.same(finding) && other.amount() >= finding.amount());
      boolean placed =
          placed(before, after, finding.booking()) || placed(before, after, finding.against());
      (known && !placed ? left : made).add(finding);
    }
    return new DiaryVerdict(made, left);
  }

  private static boolean placed(Diary before, Diary after, String booking) {
    Optional<Booking> now = after.booking(booking);
    return now.isPresent()
        && before.booking(booking).map(then -> now.get().elsewhere(then)).orElse(true);
  }
}
