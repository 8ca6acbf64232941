package quadrille.facts.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Two charts of one mouth, before treatment and after it, site by site.
 *
 * <p>A pocket is a site of 5 mm or more before. It has closed where it is 4 mm or less afterwards
 * and does not bleed (endpoint of the guideline, Sanz et al. 2020, doi 10.1111/jcpe.13290). Sites
 * that were not probed on both days are counted apart and enter no figure. It clears nobody.
 *
 * @param all over the whole mouth
 * @param areas in the order of the areas
 * @param residual sites that are still 5 mm or more, or 4 mm or more and bleed
 * @param notCompared sites that were probed on one day only, or on neither
 * @param teethGone teeth charted to work on before and no longer afterwards
 * @param teethNew teeth charted to work on afterwards and not before; in no figure
 * @param doubts why these may not be what they are taken for, a sentence each
 */
public record Reassessment(
    Figures all,
    List<OfArea> areas,
    List<Residual> residual,
    int notCompared,
    List<Tooth> teethGone,
    List<Tooth> teethNew,
    List<String> doubts) {

  /**
   * So much deeper on average, mm, looks like two charts that changed places, where no dates say
   * which came first. An assumption: treatment does not do that, and probing is not that inexact.
   */
  private static final double CLEARLY_DEEPER_MM = 0.5;

  /** From here on a site is a pocket, mm. */
  public static final int POCKET_MM = 5;

  /** Up to here a pocket can count as closed, mm. */
  public static final int CLOSED_MM = 4;

  /** What a closed site is written as at most, mm: an assumption, below the default's fine pass. */
  private static final int HEALTHY_MM = 3;

  private static final int LONGEST_NAME = 200;

  public Reassessment {
    areas = List.copyOf(areas);
    residual = List.copyOf(residual);
    teethGone = List.copyOf(teethGone);
    teethNew = List.copyOf(teethNew);
    doubts = List.copyOf(doubts);
  }

  /**
   * Counts over some sites that were probed on both days.
   *
   * @param sites compared
   * @param pocketsBefore of 5 mm or more before
   * @param closed of these, 4 mm or less and not bleeding afterwards
   * @param pocketsAfter of 5 mm or more afterwards, new ones included
   * @param newPockets below 5 mm before, 5 mm or more afterwards
   * @param bleedingBefore bleeding before
   * @param bleedingAfter bleeding afterwards
   * @param depthBefore sum of depths before, mm
   * @param depthAfter sum of depths afterwards, mm
   * @param pocketDepthBefore sum of depths before over the pockets before, mm
   * @param pocketDepthAfter sum of depths afterwards over the pockets before, mm
   */
  public record Figures(
      int sites,
      int pocketsBefore,
      int closed,
      int pocketsAfter,
      int newPockets,
      int bleedingBefore,
      int bleedingAfter,
      int depthBefore,
      int depthAfter,
      int pocketDepthBefore,
      int pocketDepthAfter) {

    static final Figures NONE = new Figures(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);

    /** Share of the pockets before that have closed; null where there were none. */
    public @Nullable Double closure() {
      return pocketsBefore == 0 ? null : (double) closed / pocketsBefore;
    }

    /** Mean change of depth over all sites compared, mm, negative where shallower. */
    public @Nullable Double meanChange() {
      return sites == 0 ? null : (double) (depthAfter - depthBefore) / sites;
    }

    /** Mean change of depth over the pockets before, mm, negative where shallower. */
    public @Nullable Double meanPocketChange() {
      return pocketsBefore == 0
          ? null
          : (double) (pocketDepthAfter - pocketDepthBefore) / pocketsBefore;
    }

    Figures plus(Site before, Site after) {
      int was = before.depthMm() == null ? 0 : before.depthMm();
      int is = after.depthMm() == null ? 0 : after.depthMm();
      boolean pocket = was >= POCKET_MM;
      return new Figures(
          sites + 1,
          pocketsBefore + (pocket ? 1 : 0),
          closed + (pocket && is <= CLOSED_MM && !after.bleeding() ? 1 : 0),
          pocketsAfter + (is >= POCKET_MM ? 1 : 0),
          newPockets + (!pocket && is >= POCKET_MM ? 1 : 0),
          bleedingBefore + (before.bleeding() ? 1 : 0),
          bleedingAfter + (after.bleeding() ? 1 : 0),
          depthBefore + was,
          depthAfter + is,
          pocketDepthBefore + (pocket ? was : 0),
          pocketDepthAfter + (pocket ? is : 0));
    }
  }

  /** Counts of one area. */
  public record OfArea(AreaRef area, Figures figures) {}

  /**
   * A site that the endpoint has not been reached at.
   *
   * @param site 0 distal, 1 middle, 2 mesial
   * @param beforeMm null where it was not probed before
   * @param afterMm its depth now
   */
  public record Residual(
      Tooth tooth,
      Aspect aspect,
      int site,
      @Nullable Integer beforeMm,
      int afterMm,
      boolean bleeding) {}

  /** Compares two charts of one mouth. */
  public static Reassessment of(Chart before, Chart after) {
    Figures all = Figures.NONE;
    List<OfArea> areas = new ArrayList<>();
    List<Residual> residual = new ArrayList<>();
    int notCompared = 0;
    for (Area area : Area.of(after)) {
      Figures figures = Figures.NONE;
      for (Tooth tooth : area.teeth()) {
        ToothChart now = after.tooth(tooth).orElseThrow();
        @Nullable ToothChart then = before.tooth(tooth).filter(ToothChart::worked).orElse(null);
        for (Aspect aspect : Aspect.values()) {
          for (int i = 0; i < now.sites(aspect).size(); i++) {
            Site is = now.sites(aspect).get(i);
            @Nullable Site was = then == null ? null : then.sites(aspect).get(i);
            if (residual(is)) {
              residual.add(
                  new Residual(
                      tooth,
                      aspect,
                      i,
                      was == null ? null : was.depthMm(),
                      is.depthMm() == null ? 0 : is.depthMm(),
                      is.bleeding()));
            }
            if (was == null) {
              continue;
            }
            if (was.depthMm() == null || is.depthMm() == null) {
              notCompared++;
            } else {
              figures = figures.plus(was, is);
              all = all.plus(was, is);
            }
          }
        }
      }
      areas.add(new OfArea(area.ref(), figures));
    }
    return new Reassessment(
        all,
        areas,
        residual,
        notCompared,
        missing(before, after),
        missing(after, before),
        doubts(before, after, all));
  }

  private static List<String> doubts(Chart before, Chart after, Figures all) {
    List<String> doubts = new ArrayList<>();
    if (!before.caseName().equals(after.caseName())) {
      doubts.add("The charts name different cases; is it one mouth?");
    }
    List<Tooth> back =
        after.worked().stream()
            .filter(tooth -> !tooth.implant())
            .map(ToothChart::tooth)
            .filter(
                tooth ->
                    before
                        .tooth(tooth)
                        .filter(was -> was.status() == ToothStatus.MISSING || was.implant())
                        .isPresent())
            .toList();
    if (!back.isEmpty()) {
      doubts.add(
          "Natural teeth are charted where there were none before ("
              + String.join(", ", back.stream().map(after.numbering()::name).toList())
              + "); is it one mouth?");
    }
    @Nullable LocalDate then = before.charted();
    @Nullable LocalDate now = after.charted();
    @Nullable Double change = all.meanChange();
    if (before.teeth().equals(after.teeth())) {
      doubts.add("Both charts have the same findings at every site; is it one chart twice?");
    }
    if (then != null && now != null && !then.equals(now)) {
      if (now.isBefore(then)) {
        doubts.add(
            "The chart after ("
                + now
                + ") is older than the chart before ("
                + then
                + "); are the two swapped?");
      }
    } else if (change != null && change >= CLEARLY_DEEPER_MM && all.newPockets() > all.closed()) {
      doubts.add(
          String.format(
              Locale.ROOT,
              "Sites are %.1f mm deeper on average afterwards, and no dates say which chart came"
                  + " first; are the two swapped?",
              change));
    }
    return doubts;
  }

  private static List<Tooth> missing(Chart of, Chart in) {
    return of.worked().stream()
        .map(ToothChart::tooth)
        .filter(tooth -> in.tooth(tooth).filter(ToothChart::worked).isEmpty())
        .toList();
  }

  /** Whether the endpoint has not been reached: 5 mm or more, or 4 mm or more and bleeding. */
  public static boolean residual(Site site) {
    Integer depth = site.depthMm();
    return depth != null && (depth >= POCKET_MM || depth >= CLOSED_MM && site.bleeding());
  }

  /**
   * A chart to plan a retreatment from, and no record of the mouth: sites that have reached the
   * endpoint are written as at most 3 mm and not bleeding, so that a practice whose fine pass
   * begins deeper plans no work for them; teeth without a residual site lose deposit and the
   * features that ask for work. Residual sites and sites that were not probed stay as they are. The
   * name of the case says so.
   *
   * @param after the chart after treatment
   */
  public static Chart retreatment(Chart after) {
    List<ToothChart> teeth = new ArrayList<>();
    for (ToothChart tooth : after.teeth()) {
      teeth.add(tooth.worked() ? retreatment(tooth) : tooth);
    }
    return after.withCaseName(named(after.caseName())).withTeeth(teeth);
  }

  private static String named(String caseName) {
    String suffix = ", residual sites only";
    int most = LONGEST_NAME - suffix.length();
    return caseName.substring(0, Math.min(caseName.length(), most)) + suffix;
  }

  private static ToothChart retreatment(ToothChart tooth) {
    boolean open =
        tooth.sites().stream().anyMatch(site -> site.depthMm() == null || residual(site));
    Set<Feature> features = EnumSet.noneOf(Feature.class);
    for (Feature feature : tooth.features()) {
      boolean work =
          feature == Feature.CALCULUS_BRIDGE
              || feature == Feature.HEAVY_STAIN
              || feature == Feature.CROWDED
              || feature == Feature.TIGHT_TISSUE;
      if (open || !work) {
        features.add(feature);
      }
    }
    return new ToothChart(
        tooth.tooth(),
        tooth.status(),
        open ? tooth.deposit() : Deposit.NONE,
        tooth.furcation(),
        tooth.mobility(),
        features,
        retreatment(tooth.facial()),
        retreatment(tooth.lingual()));
  }

  private static @Nullable AspectReading retreatment(@Nullable AspectReading reading) {
    if (reading == null) {
      return null;
    }
    List<Site> sites = reading.sites().stream().map(Reassessment::retreatment).toList();
    return new AspectReading(sites.get(0), sites.get(1), sites.get(2));
  }

  /** A site that has reached the endpoint asks for nothing: healthy depth, no bleeding. */
  private static Site retreatment(Site site) {
    Integer depth = site.depthMm();
    return depth == null || residual(site)
        ? site
        : new Site(Math.min(depth, HEALTHY_MM), site.recessionMm(), false);
  }
}
