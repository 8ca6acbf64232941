package quadrille.diary.calendar;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/**
 * Sets of moments, as lists of spans. What is returned is in order, and no two of its spans overlap
 * or touch; what is given may be in any order and may overlap.
 */
public final class Intervals {

  private Intervals() {}

  /** All moments of any of the spans. */
  public static List<Interval> union(Collection<Interval> spans) {
    List<Interval> merged = new ArrayList<>();
    for (Interval span : spans.stream().sorted().toList()) {
      int last = merged.size() - 1;
      if (last >= 0 && !merged.get(last).end().isBefore(span.start())) {
        Interval before = merged.get(last);
        merged.set(last, new Interval(before.start(), later(before.end(), span.end())));
      } else {
        merged.add(span);
      }
    }
    return List.copyOf(merged);
  }

  /** The moments of the one that are none of the other's. */
  public static List<Interval> without(Collection<Interval> spans, Collection<Interval> taken) {
    List<Interval> away = union(taken);
    List<Interval> left = new ArrayList<>();
    int at = 0;
    for (Interval span : union(spans)) {
      Instant from = span.start();
      while (at < away.size() && !away.get(at).end().isAfter(from)) {
        at++;
      }
      for (int i = at; i < away.size() && away.get(i).start().isBefore(span.end()); i++) {
        if (from.isBefore(away.get(i).start())) {
          left.add(new Interval(from, away.get(i).start()));
        }
        from = later(from, away.get(i).end());
      }
      if (from.isBefore(span.end())) {
        left.add(new Interval(from, span.end()));
      }
    }
    return List.copyOf(left);
  }

  /** The moments of both. */
  public static List<Interval> both(Collection<Interval> a, Collection<Interval> b) {
    List<Interval> one = union(a);
    List<Interval> other = union(b);
    List<Interval> shared = new ArrayList<>();
    int i = 0;
    int j = 0;
    while (i < one.size() && j < other.size()) {
      Interval left = one.get(i);
      Interval right = other.get(j);
      if (left.overlaps(right)) {
        shared.add(
            new Interval(later(left.start(), right.start()), earlier(left.end(), right.end())));
      }
      if (left.end().isBefore(right.end())) {
        i++;
      } else {
        j++;
      }
    }
    return List.copyOf(shared);
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  private static Instant earlier(Instant a, Instant b) {
    return a.isBefore(b) ? a : b;
  }
}
