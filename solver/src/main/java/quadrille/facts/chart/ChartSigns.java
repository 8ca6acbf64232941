package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToIntFunction;

/**
 * What a chart says of the stage of periodontitis, of implants, of referral and of extractions.
 * Prompts for a clinician, never a diagnosis: bone loss, why teeth are missing and what else wears
 * attachment away are not charted.
 *
 * <p>The stages are those of the 2018 classification: Tonetti, Greenwell, Kornman 2018, doi
 * 10.1111/jcpe.12945. Interdental attachment loss 1-2, 3-4, 5 or more mm; deepest site 4, 5, 6 or
 * more mm; furcation 2 or 3 from stage III on; mobility 2 or 3 and fewer than 20 teeth in stage IV.
 *
 * @param stage signs of a stage, in the order of {@link Criterion}; without a natural tooth none
 * @param lossTeeth those whose attachment loss is of the worst one's stage; empty where none is
 *     lost
 * @param unprobedTeeth natural teeth with a site that was not probed, so that more may be true
 * @param unprobedImplants implants with such a site
 * @param implants implants with a site of {@link #DEEP_MM} or more that bled
 * @param deepSites sites of natural teeth of {@link #DEEP_MM} or more
 * @param deepTeeth the teeth that they are of
 * @param extractions teeth planned for extraction where work lies on the same side
 */
public record ChartSigns(
    List<Sign> stage,
    List<Tooth> lossTeeth,
    List<Tooth> unprobedTeeth,
    List<Tooth> unprobedImplants,
    List<DeepImplant> implants,
    int deepSites,
    List<Tooth> deepTeeth,
    List<Tooth> extractions) {

  /** From here on an implant that bleeds, and a pocket that stays, are looked into, mm. */
  public static final int DEEP_MM = 6;

  /** With fewer natural teeth, the count is a sign of stage IV. */
  public static final int FEW_TEETH = 20;

  public ChartSigns {
    stage = List.copyOf(stage);
    lossTeeth = List.copyOf(lossTeeth);
    unprobedTeeth = List.copyOf(unprobedTeeth);
    unprobedImplants = List.copyOf(unprobedImplants);
    implants = List.copyOf(implants);
    deepTeeth = List.copyOf(deepTeeth);
    extractions = List.copyOf(extractions);
  }

  /** The stages of the classification. */
  public enum Stage {
    I,
    II,
    III,
    IV
  }

  /** What a stage is told by, as far as a chart holds it. */
  public enum Criterion {
    /** Depth and recession together, at the sites between the teeth, mm. */
    ATTACHMENT_LOSS("attachment-loss"),
    /** The deepest site, mm. */
    DEPTH("depth"),
    /** Grade 1 to 3. */
    FURCATION("furcation"),
    /** Grade 1 to 3. */
    MOBILITY("mobility"),
    /** Natural teeth. */
    TEETH("teeth");

    private final String word;

    Criterion(String word) {
      this.word = word;
    }

    /** As written in answers. */
    public String word() {
      return word;
    }
  }

  /**
   * One sign.
   *
   * @param value the worst in the mouth: mm, grade or number
   * @param teeth where it was found, the worst only; empty for the number of teeth
   * @param stages the stages that it is found in; empty where it points to none
   */
  public record Sign(Criterion criterion, int value, List<Tooth> teeth, Set<Stage> stages) {

    public Sign {
      teeth = List.copyOf(teeth);
      stages = stages.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(stages));
    }
  }

  /**
   * An implant to look into.
   *
   * @param deepestMm its deepest site that bled
   */
  public record DeepImplant(Tooth tooth, int deepestMm) {}

  /** Reads a chart. */
  public static ChartSigns of(Chart chart) {
    List<ToothChart> natural = chart.worked().stream().filter(tooth -> !tooth.implant()).toList();
    List<Tooth> deepTeeth = new ArrayList<>();
    int deepSites = 0;
    for (ToothChart tooth : natural) {
      int deep = (int) tooth.sites().stream().filter(site -> depth(site) >= DEEP_MM).count();
      deepSites += deep;
      if (deep > 0) {
        deepTeeth.add(tooth.tooth());
      }
    }
    return new ChartSigns(
        natural.isEmpty() ? List.of() : stage(natural),
        lossTeeth(natural),
        unprobed(natural),
        unprobed(chart.worked().stream().filter(ToothChart::implant).toList()),
        implants(chart),
        deepSites,
        deepTeeth,
        extractions(chart));
  }

  /**
   * Whether two of the teeth with the worst stage of attachment loss are no neighbours, as the
   * classification asks of a case: Tonetti, Greenwell, Kornman 2018.
   */
  public boolean lossApart() {
    return lossTeeth.stream()
        .anyMatch(one -> lossTeeth.stream().anyMatch(other -> apart(one, other)));
  }

  private static boolean apart(Tooth one, Tooth other) {
    return one.quadrant().jaw() != other.quadrant().jaw()
        || Math.abs(alongTheArch(one) - alongTheArch(other)) > 1;
  }

  private static int alongTheArch(Tooth tooth) {
    return tooth.quadrant().side() == Side.RIGHT ? -tooth.position() : tooth.position() - 1;
  }

  private static List<Tooth> lossTeeth(List<ToothChart> natural) {
    int worst = natural.stream().mapToInt(ChartSigns::attachmentLoss).max().orElse(0);
    Set<Stage> stages = stages(Criterion.ATTACHMENT_LOSS, worst);
    return natural.stream()
        .filter(tooth -> !stages.isEmpty())
        .filter(tooth -> stages(Criterion.ATTACHMENT_LOSS, attachmentLoss(tooth)).equals(stages))
        .map(ToothChart::tooth)
        .toList();
  }

  private static List<Tooth> unprobed(List<ToothChart> some) {
    return some.stream()
        .filter(tooth -> tooth.sites().stream().anyMatch(site -> site.depthMm() == null))
        .map(ToothChart::tooth)
        .toList();
  }

  private static List<Sign> stage(List<ToothChart> natural) {
    List<Sign> signs = new ArrayList<>();
    // Where nothing was probed, no loss and no depth is no sign of health.
    if (natural.stream()
        .flatMap(tooth -> tooth.sites().stream())
        .anyMatch(site -> site.depthMm() != null)) {
      add(signs, natural, Criterion.ATTACHMENT_LOSS, ChartSigns::attachmentLoss);
      add(signs, natural, Criterion.DEPTH, ChartSigns::deepest);
    }
    add(signs, natural, Criterion.FURCATION, ToothChart::furcation);
    add(signs, natural, Criterion.MOBILITY, ToothChart::mobility);
    signs.add(
        new Sign(
            Criterion.TEETH, natural.size(), List.of(), stages(Criterion.TEETH, natural.size())));
    return signs;
  }

  private static void add(
      Collection<Sign> signs,
      List<ToothChart> natural,
      Criterion criterion,
      ToIntFunction<ToothChart> value) {
    int worst = natural.stream().mapToInt(value).max().orElse(0);
    List<Tooth> teeth =
        worst == 0
            ? List.of()
            : natural.stream()
                .filter(tooth -> value.applyAsInt(tooth) == worst)
                .map(ToothChart::tooth)
                .toList();
    signs.add(new Sign(criterion, worst, teeth, stages(criterion, worst)));
  }

  /** The stages of the published table in which a value is found. */
  private static Set<Stage> stages(Criterion criterion, int value) {
    return switch (criterion) {
      case ATTACHMENT_LOSS ->
          value >= 5
              ? EnumSet.of(Stage.III, Stage.IV)
              : value >= 3 ? EnumSet.of(Stage.II) : value >= 1 ? EnumSet.of(Stage.I) : Set.of();
      case DEPTH ->
          value >= DEEP_MM
              ? EnumSet.of(Stage.III, Stage.IV)
              : value == 5 ? EnumSet.of(Stage.II) : value == 4 ? EnumSet.of(Stage.I) : Set.of();
      case FURCATION -> value >= 2 ? EnumSet.of(Stage.III, Stage.IV) : Set.of();
      case MOBILITY -> value >= 2 ? EnumSet.of(Stage.IV) : Set.of();
      case TEETH -> value < FEW_TEETH ? EnumSet.of(Stage.IV) : Set.of();
    };
  }

  /** Between the teeth, mm: depth and recession; 0 where the margin hides none. */
  private static int attachmentLoss(ToothChart tooth) {
    int worst = 0;
    for (Aspect aspect : Aspect.values()) {
      List<Site> sites = tooth.sites(aspect);
      for (int i = 0; i < sites.size(); i += 2) {
        Integer depth = sites.get(i).depthMm();
        if (depth != null) {
          worst = Math.max(worst, depth + sites.get(i).recessionMm());
        }
      }
    }
    return worst;
  }

  private static int deepest(ToothChart tooth) {
    return tooth.sites().stream().mapToInt(ChartSigns::depth).max().orElse(0);
  }

  private static int depth(Site site) {
    return site.depthMm() == null ? 0 : site.depthMm();
  }

  private static List<DeepImplant> implants(Chart chart) {
    List<DeepImplant> deep = new ArrayList<>();
    for (ToothChart tooth : chart.teeth()) {
      int worst =
          tooth.implant()
              ? tooth.sites().stream()
                  .filter(Site::bleeding)
                  .mapToInt(ChartSigns::depth)
                  .max()
                  .orElse(0)
              : 0;
      if (worst >= DEEP_MM) {
        deep.add(new DeepImplant(tooth.tooth(), worst));
      }
    }
    return deep;
  }

  private static List<Tooth> extractions(Chart chart) {
    Set<Side> worked = new TreeSet<>();
    chart.worked().forEach(tooth -> worked.add(tooth.tooth().quadrant().side()));
    return chart.teeth().stream()
        .filter(tooth -> tooth.status() == ToothStatus.PLANNED_EXTRACTION)
        .map(ToothChart::tooth)
        .filter(tooth -> worked.contains(tooth.quadrant().side()))
        .toList();
  }
}
