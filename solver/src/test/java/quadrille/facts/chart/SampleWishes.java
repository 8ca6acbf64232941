package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import quadrille.facts.chart.Wish.Region;

/** Wishes by chance, of places in which something stands. */
public final class SampleWishes {

  private SampleWishes() {}

  /**
   * Wishes of a mouth.
   *
   * @param inserts that some of them are about; none where none may be
   */
  public static List<Wish> of(List<Tooth> teeth, List<String> inserts, Random random) {
    List<Wish> wishes = new ArrayList<>();
    int number = 1 + random.nextInt(3);
    for (int i = 0; i < number; i++) {
      wishes.add(one(teeth, inserts, random));
    }
    return wishes;
  }

  /** One of them. */
  public static Wish one(List<Tooth> teeth, List<String> inserts, Random random) {
    List<Region> some = regions(teeth, random);
    int visit = 1 + random.nextInt(4);
    Wish.Ask ask =
        switch (random.nextInt(inserts.isEmpty() ? 4 : 7)) {
          case 0 ->
              new Wish.InVisit(
                  some.subList(0, 1), visit, random.nextInt(3) == 0 ? visit + 1 : null);
          case 1 -> some.size() > 1 ? new Wish.Apart(some) : new Wish.First(some);
          case 2 -> new Wish.Together(some);
          case 3 -> new Wish.First(some.subList(0, 1));
          case 4 -> new Wish.NoInjection(some);
          case 5 -> new Wish.NotInsert(inserts.get(random.nextInt(inserts.size())));
          default -> new Wish.NumbFirst();
        };
    return new Wish(random.nextBoolean(), ask);
  }

  /** One or two places that do not overlap. */
  private static List<Region> regions(List<Tooth> teeth, Random random) {
    Region one = region(teeth.get(random.nextInt(teeth.size())), random);
    Region other = region(teeth.get(random.nextInt(teeth.size())), random);
    boolean overlap =
        Tooth.values().stream().anyMatch(tooth -> one.holds(tooth) && other.holds(tooth));
    return overlap ? List.of(one) : List.of(one, other);
  }

  private static Region region(Tooth tooth, Random random) {
    return new Region(
        tooth.quadrant(),
        switch (random.nextInt(4)) {
          case 0 -> null;
          case 1 -> AreaRef.part(List.of(tooth));
          default -> AreaRef.whole(tooth.quadrant(), Half.of(tooth));
        });
  }
}
