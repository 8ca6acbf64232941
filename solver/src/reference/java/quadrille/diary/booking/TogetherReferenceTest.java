package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingWeights;

/** A few patients at once, whose cheapest bookings CP-SAT can prove in a moment. */
final class TogetherReferenceTest {

  private static final LocalDate FIRST = RandomDiary.FIRST;
  private static final LocalDate LAST = FIRST.plusDays(13);
  private static final BookingWeights WEIGHTS = BookingWeights.defaults();

  private final RandomDiary random = new RandomDiary(41);
  private final Diary diary = random.diary(2, 2, 20, 14, 0.1, 2);
  private final List<CourseRequest> courses = courses();

  private List<CourseRequest> courses() {
    List<CourseRequest> patients = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      patients.add(random.course("P-" + i, 2, diary, FIRST.minusDays(2), 5, 9));
    }
    return patients;
  }

  private TogetherReference reference() {
    return new TogetherReference(diary, courses, WEIGHTS, FIRST, LAST);
  }

  @Test
  void whatIsFoundCostsAsMuchByBothReckoningsAndNoLessThanTheLeast() {
    BatchBooker.Booked booked = BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 200);
    assertEquals(List.of(), booked.left());
    assertEquals(booked.points(), reference().cost(booked.points(), booked.visits()));

    TogetherReference.Outcome least = reference().solve(booked.points(), 60, 1);
    assertEquals("OPTIMAL", least.status());
    assertTrue(least.best() <= booked.points(), least.best() + " beside " + booked.points());
    BatchCase one = new BatchCase(diary, courses, LAST);
    assertEquals(List.of(), DiaryAudit.read(one.after(least.visits())));
    assertEquals(
        least.best(),
        one.terms(new BatchBooker.Booked(least.visits(), List.of(), 0)).values().stream()
            .mapToLong(Long::longValue)
            .sum());
    // A little more room for dearer ways changes nothing of what is best.
    assertEquals(least.best(), reference().solve(booked.points() + 100, 60, 1).best());
  }

  @Test
  void bookingsThatBreakARuleHaveNoCost() {
    BatchBooker.Booked booked = BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 0);
    OfferedVisit one = booked.visits().get(0);
    List<OfferedVisit> twice = new ArrayList<>(booked.visits());
    for (int i = 0; i < twice.size(); i++) {
      OfferedVisit other = twice.get(i);
      if (other.visit() == 1 && !other.caseName().equals(one.caseName())) {
        twice.set(
            i,
            new OfferedVisit(
                other.caseName(), 1, one.start(), other.minutes(), one.clinician(), one.chair()));
        break;
      }
    }
    assertEquals(-1, reference().cost(booked.points() + 1000, twice));
  }
}
