package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingWeights;

/** Invented patients in half-full diaries. */
final class OffersTest {

  private static final LocalDate LAST = RandomDiary.FIRST.plusDays(40);

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void theCheapestIsTheFirstAndItAloneIsCalledBest(long seed) {
    RandomDiary random = new RandomDiary(seed);
    Diary diary = random.diary(3, 2, 10, 40, 0.3);
    CourseRequest course = random.course("K-1", 1 + (int) seed % 3, diary);
    List<Offer> offers =
        Offers.of(diary, course, BookingWeights.defaults(), RandomDiary.FIRST, LAST, 4);
    assertTrue(offers.size() > 1);
    assertTrue(offers.get(0).because().contains(Merit.BEST_BALANCE));
    for (Offer offer : offers.subList(1, offers.size())) {
      assertTrue(!offer.because().contains(Merit.BEST_BALANCE), offer.toString());
      assertTrue(offer.cost() >= offers.get(0).cost(), offer.toString());
    }
    assertTrue(offers.stream().anyMatch(offer -> offer.because().contains(Merit.FINISHES_FIRST)));
    assertEquals(
        List.of(offers.get(0)),
        Offers.of(diary, course, BookingWeights.defaults(), RandomDiary.FIRST, LAST, 1));
  }
}
