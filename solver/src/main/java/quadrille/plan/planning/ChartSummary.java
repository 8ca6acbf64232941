package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkNote;

/**
 * What a chart says, summed up, with the work that each of its areas needs. Sites, depths, deposit,
 * furcation, mobility and features are those of the teeth and implants that are worked on; a tooth
 * planned for extraction is listed and no more.
 *
 * @param natural natural teeth that are worked on
 * @param implants implants
 * @param extractions teeth planned for extraction
 * @param missing positions charted as missing
 * @param unlisted positions that the chart does not list, taken as missing
 * @param sites charted sites, six for each tooth and implant
 * @param unprobed sites among them that the deposit kept from being probed
 * @param bleeding sites among them that bled
 * @param bleedingOf sites of which that is known: those that were probed, or bled all the same
 * @param depths how many probed sites lie in each band, shallowest first
 * @param deepestMm the deepest probed site; 0 where none was probed
 * @param extent how much of the mouth has pockets
 * @param deposits how many teeth and implants carry each grade
 * @param furcations teeth by grade, 1 to 3
 * @param mobilities teeth by grade, 1 to 3
 * @param features teeth by feature
 * @param areas the work of each area
 * @param notes what a reader of the work must know
 * @param sources the figures that the minutes and the numbing rest on, and how each is known
 */
public record ChartSummary(
    List<Tooth> natural,
    List<Tooth> implants,
    List<Tooth> extractions,
    List<Tooth> missing,
    List<Tooth> unlisted,
    int sites,
    int unprobed,
    int bleeding,
    int bleedingOf,
    List<DepthBand> depths,
    int deepestMm,
    Extent extent,
    Map<Deposit, Integer> deposits,
    SortedMap<Integer, List<Tooth>> furcations,
    SortedMap<Integer, List<Tooth>> mobilities,
    SortedMap<Feature, List<Tooth>> features,
    List<AreaWork> areas,
    List<WorkNote> notes,
    List<UsedFigure> sources) {

  /** From this share of teeth on, pockets are generalised. */
  public static final Figure GENERALISED =
      new Figure(0.3, "Tonetti, Greenwell, Kornman 2018, doi 10.1111/jcpe.12945");

  /** The deepest depth that a chart may hold. */
  public static final int DEEPEST_MM = 20;

  /**
   * The first depth of each band: 4 mm or less is the endpoint of treatment, 5 mm or more is a
   * pocket that the trials count, and the deepest band keeps the most residual calculus in sight.
   */
  private static final int[] BAND_FROM_MM = {0, 4, 5, 7};

  public ChartSummary {
    natural = List.copyOf(natural);
    implants = List.copyOf(implants);
    extractions = List.copyOf(extractions);
    missing = List.copyOf(missing);
    unlisted = List.copyOf(unlisted);
    depths = List.copyOf(depths);
    deposits = Collections.unmodifiableMap(new EnumMap<>(deposits));
    furcations = Collections.unmodifiableSortedMap(furcations);
    mobilities = Collections.unmodifiableSortedMap(mobilities);
    features = Collections.unmodifiableSortedMap(features);
    areas = List.copyOf(areas);
    notes = List.copyOf(notes);
    sources = List.copyOf(sources);
  }

  /**
   * Probed sites of a range of depths.
   *
   * @param toMm the last depth, inclusive; {@link #DEEPEST_MM} for the last band
   */
  public record DepthBand(int fromMm, int toMm, int sites) {}

  /**
   * How much of the mouth has pockets. A reading of the chart, not a diagnosis: attachment and bone
   * loss are not charted.
   *
   * @param fromMm what counts as a pocket: a probed site at or above this depth
   * @param teeth natural teeth with at least one
   * @param unknown natural teeth without one that were not probed at every site
   * @param of natural teeth
   */
  public record Extent(int fromMm, int teeth, int unknown, int of) {

    /** Share of natural teeth with a pocket, 0 to 1; 0 where there is no natural tooth. */
    public double share() {
      return of == 0 ? 0 : teeth / (double) of;
    }

    /** Generalised from 30 % of teeth (Tonetti et al. 2018); what is not probed is not healthy. */
    public Spread spread() {
      if (share() >= GENERALISED.value()) {
        return Spread.GENERALISED;
      }
      boolean open = unknown > 0 && (teeth == 0 || teeth + unknown >= GENERALISED.value() * of);
      return open ? Spread.UNKNOWN : teeth == 0 ? Spread.NONE : Spread.LOCALISED;
    }
  }

  /** How far pockets are spread over a mouth. */
  public enum Spread {
    NONE,
    LOCALISED,
    GENERALISED,
    /** It hangs on sites that were not probed. */
    UNKNOWN
  }

  /**
   * The work of one area.
   *
   * @param seconds working seconds by pass; only passes that it gets
   * @param pulp teeth whose pulp must be numb
   * @param facial teeth whose facial gingiva must be numb
   * @param lingual teeth whose lingual or palatal gingiva must be numb
   * @param gel aspects that get pocket gel instead of an injection
   */
  public record AreaWork(
      Area area,
      Map<Pass, Integer> seconds,
      SortedSet<Tooth> pulp,
      SortedSet<Tooth> facial,
      SortedSet<Tooth> lingual,
      SortedSet<StepAspect> gel) {

    public AreaWork {
      Map<Pass, Integer> sorted = new EnumMap<>(Pass.class);
      sorted.putAll(seconds);
      seconds = Collections.unmodifiableMap(sorted);
      pulp = Collections.unmodifiableSortedSet(new TreeSet<>(pulp));
      facial = Collections.unmodifiableSortedSet(new TreeSet<>(facial));
      lingual = Collections.unmodifiableSortedSet(new TreeSet<>(lingual));
      gel = Collections.unmodifiableSortedSet(new TreeSet<>(gel));
    }

    /** Working seconds of all passes. */
    public int workingSeconds() {
      return seconds.values().stream().mapToInt(Integer::intValue).sum();
    }

    /** Whether an injection is needed. */
    public boolean needsInjection() {
      return !pulp.isEmpty() || !facial.isEmpty() || !lingual.isEmpty();
    }
  }

  /**
   * Sums a chart up.
   *
   * @param work the chart's work by that practice
   */
  public static ChartSummary of(Chart chart, Practice practice, WorkList work) {
    List<ToothChart> worked = chart.worked();
    List<Site> sites = worked.stream().flatMap(tooth -> tooth.sites().stream()).toList();
    List<Integer> probed = sites.stream().map(Site::depthMm).filter(Objects::nonNull).toList();
    return new ChartSummary(
        teeth(chart.teeth(), tooth -> tooth.status() == ToothStatus.NATURAL),
        teeth(chart.teeth(), ToothChart::implant),
        teeth(chart.teeth(), tooth -> tooth.status() == ToothStatus.PLANNED_EXTRACTION),
        teeth(chart.teeth(), tooth -> tooth.status() == ToothStatus.MISSING),
        chart.unlisted(),
        sites.size(),
        sites.size() - probed.size(),
        (int) sites.stream().filter(Site::bleeding).count(),
        (int) sites.stream().filter(site -> site.bleeding() || site.depthMm() != null).count(),
        depths(probed),
        probed.stream().mapToInt(Integer::intValue).max().orElse(0),
        extent(worked, practice.passes().fineDepthMm().asInt()),
        deposits(worked),
        byGrade(worked, true),
        byGrade(worked, false),
        features(worked),
        work.areas().stream().map(area -> areaWork(area, work)).toList(),
        work.notes(),
        UsedFigure.of(chart, practice, work));
  }

  private static List<Tooth> teeth(List<ToothChart> some, Predicate<ToothChart> which) {
    return some.stream().filter(which).map(ToothChart::tooth).toList();
  }

  private static List<DepthBand> depths(List<Integer> probed) {
    List<DepthBand> bands = new ArrayList<>();
    for (int i = 0; i < BAND_FROM_MM.length; i++) {
      int from = BAND_FROM_MM[i];
      int to = i + 1 < BAND_FROM_MM.length ? BAND_FROM_MM[i + 1] - 1 : DEEPEST_MM;
      int count = (int) probed.stream().filter(depth -> depth >= from && depth <= to).count();
      bands.add(new DepthBand(from, to, count));
    }
    return bands;
  }

  private static Extent extent(List<ToothChart> worked, int fromMm) {
    List<ToothChart> natural = worked.stream().filter(tooth -> !tooth.implant()).toList();
    int pocketed = 0;
    int unknown = 0;
    for (ToothChart tooth : natural) {
      List<Integer> depths =
          tooth.sites().stream().map(Site::depthMm).filter(Objects::nonNull).toList();
      if (depths.stream().anyMatch(depth -> depth >= fromMm)) {
        pocketed++;
      } else if (depths.size() < tooth.sites().size()) {
        unknown++;
      }
    }
    return new Extent(fromMm, pocketed, unknown, natural.size());
  }

  private static Map<Deposit, Integer> deposits(List<ToothChart> worked) {
    Map<Deposit, Integer> counts = new EnumMap<>(Deposit.class);
    for (Deposit deposit : Deposit.values()) {
      counts.put(deposit, (int) worked.stream().filter(t -> t.deposit() == deposit).count());
    }
    return counts;
  }

  private static SortedMap<Integer, List<Tooth>> byGrade(
      List<ToothChart> worked, boolean furcation) {
    SortedMap<Integer, List<Tooth>> byGrade = new TreeMap<>();
    for (int grade = 1; grade <= 3; grade++) {
      int wanted = grade;
      List<Tooth> teeth =
          teeth(worked, tooth -> (furcation ? tooth.furcation() : tooth.mobility()) == wanted);
      if (!teeth.isEmpty()) {
        byGrade.put(grade, teeth);
      }
    }
    return byGrade;
  }

  private static SortedMap<Feature, List<Tooth>> features(List<ToothChart> worked) {
    SortedMap<Feature, List<Tooth>> byFeature = new TreeMap<>();
    for (Feature feature : Feature.values()) {
      List<Tooth> teeth = teeth(worked, tooth -> tooth.has(feature));
      if (!teeth.isEmpty()) {
        byFeature.put(feature, teeth);
      }
    }
    return byFeature;
  }

  private static AreaWork areaWork(Area area, WorkList work) {
    Map<Pass, Integer> seconds = new EnumMap<>(Pass.class);
    SortedSet<StepAspect> gel = new TreeSet<>();
    List<Target> needs = new ArrayList<>();
    for (Step step : work.steps()) {
      if (step.area().equals(area)) {
        seconds.merge(step.pass(), step.seconds(), Integer::sum);
        needs.addAll(step.needs());
        if (step.gel()) {
          gel.add(step.aspect());
        }
      }
    }
    return new AreaWork(
        area,
        seconds,
        teethOf(needs, target -> target.kind().pulpal()),
        teethOf(needs, target -> target.kind() == Target.Kind.FACIAL),
        teethOf(needs, target -> target.kind() == Target.Kind.LINGUAL),
        gel);
  }

  private static SortedSet<Tooth> teethOf(List<Target> needs, Predicate<Target> which) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    needs.stream().filter(which).map(Target::tooth).forEach(teeth::add);
    return teeth;
  }
}
