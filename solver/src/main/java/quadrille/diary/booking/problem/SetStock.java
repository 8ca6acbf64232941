package quadrille.diary.booking.problem;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.SterileStock.SterileSet;

/**
 * A counted set, and what uses it beside the visits of the courses sought for.
 *
 * @param set place in the stock
 * @param count owned
 * @param reprocessing minutes
 * @param others times at which others have it out, already with reprocessing
 */
public record SetStock(int set, int count, int reprocessing, List<Out> others) {

  /**
   * Sets that are out.
   *
   * @param from first minute
   * @param back first minute in which they are back
   */
  record Out(int from, int back, int number) {}

  public SetStock {
    others = List.copyOf(others);
  }

  /**
   * Each set of a diary's stock.
   *
   * @param courses whose bookings are not others'
   */
  public static List<SetStock> of(BookingCase booking, List<CourseCase> courses) {
    List<String> own = courses.stream().map(course -> course.request().caseName()).toList();
    int reprocessing = booking.diary().stock().reprocessingMinutes();
    List<SetStock> stocks = new ArrayList<>();
    for (SterileSet set : booking.diary().stock().sets()) {
      int place = stocks.size();
      List<Out> others = new ArrayList<>();
      for (Booking one : booking.diary().bookings()) {
        int number = booking.uses(one.sets()).of(place);
        if (one.status().takesTime() && number > 0 && !own.contains(one.caseName())) {
          int start = booking.time().minute(one.start());
          others.add(new Out(start, start + one.minutes() + reprocessing, number));
        }
      }
      for (BusyTime busy : booking.busyWithSets()) {
        int number = booking.uses(busy.sets()).of(place);
        if (number > 0) {
          others.add(
              new Out(
                  booking.time().minute(busy.time().start()),
                  booking.time().minuteUp(busy.time().end()) + reprocessing,
                  number));
        }
      }
      stocks.add(new SetStock(place, set.count(), reprocessing, others));
    }
    return stocks;
  }

  /**
   * At each visit's start and at each other start while its set is out, how many are too many
   * because of visits that are being booked; what stood too many before is left alone.
   */
  public long tooMany(List<? extends Commitment> visits) {
    List<Out> standing = new ArrayList<>(others);
    List<Out> all = new ArrayList<>(others);
    for (Commitment visit : visits) {
      Out out = new Out(visit.start(), visit.end() + reprocessing, visit.visit().uses().of(set));
      all.add(out);
      if (visit.pinned()) {
        standing.add(out);
      }
    }
    return excess(all) - excess(standing);
  }

  private long excess(List<Out> outs) {
    outs.sort(Comparator.comparingInt(Out::from));
    long excess = 0;
    PriorityQueue<Out> back = new PriorityQueue<>(Comparator.comparingInt(Out::back));
    int out = 0;
    for (Out next : outs) {
      while (!back.isEmpty() && back.element().back() <= next.from()) {
        out -= back.remove().number();
      }
      back.add(next);
      out += next.number();
      excess += Math.max(0, Math.min(next.number(), out - count));
    }
    return excess;
  }
}
