package quadrille.diary.booking;

import java.lang.management.ManagementFactory;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Books the benchmark's patients with other figures of the search than the usual ones, and prints
 * what that costs; docs/booking.md shows it. The points are the same on every machine.
 */
public final class EverybodyVariants {

  private EverybodyVariants() {}

  /**
   * @param args patients, the first and the last variant, from 1, and seeds
   */
  public static void main(String[] args) {
    int patients = Integer.parseInt(args[0]);
    int usual = BatchBooker.moves(3 * patients);
    Map<String, BatchBooker.Search> variants = new LinkedHashMap<>();
    Map<String, Integer> moves = new LinkedHashMap<>();
    variants.put("usual", BatchBooker.Search.USUAL);
    for (int temperature : new int[] {1, 15, 30, 60, 120, 240}) {
      variants.put(
          "at first " + temperature + " points",
          new BatchBooker.Search(temperature, BatchBooker.Search.USUAL.ruins()));
    }
    for (int courses : new int[] {1, 3, 8}) {
      variants.put("up to " + courses + " courses", ruins(courses, 6, true));
    }
    for (int ways : new int[] {1, 3}) {
      variants.put(ways + " ways", ruins(5, ways, true));
    }
    variants.put("one order", ruins(5, 6, false));
    for (int fewer : new int[] {2, 4}) {
      String name = "1/" + fewer + " of the moves";
      variants.put(name, BatchBooker.Search.USUAL);
      moves.put(name, usual / fewer);
    }
    List<String> names = List.copyOf(variants.keySet());
    for (String name : names.subList(Integer.parseInt(args[1]) - 1, Integer.parseInt(args[2]))) {
      for (String seed : List.of(args).subList(3, args.length)) {
        BatchCase one = BatchCase.of(Long.parseLong(seed), patients);
        long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        BatchBooker.Booked booked =
            BatchBooker.book(
                one.diary(),
                one.courses(),
                BatchCase.WEIGHTS,
                BatchCase.FIRST,
                one.last(),
                variants.getOrDefault(name, BatchBooker.Search.USUAL),
                moves.getOrDefault(name, usual),
                BatchBooker.Watch.nobody());
        long after = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        System.out.printf(
            Locale.ROOT,
            "| %s | %s | %d | %d | %.1f |%n",
            name,
            seed,
            booked.points(),
            booked.left().size(),
            (after - before) / 1e9);
      }
    }
  }

  private static BatchBooker.Search ruins(int courses, int ways, boolean both) {
    return new BatchBooker.Search(
        BatchBooker.Search.USUAL.temperature(), Ruin.upTo(courses, ways, both));
  }
}
