package quadrille.facts.practice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.chart.Jaw;

/**
 * A kind of injection and what it numbs. Positions count 1 to 8 from the midline, on the side it is
 * given; where {@code perTooth}, they say for which teeth it can be given, and it numbs that tooth
 * alone.
 *
 * @param name the trade's name, such as {@code inferior alveolar}
 * @param technique decides onset and duration
 * @param superficial whether a block is shallow enough for a patient who bleeds to need no
 *     infiltration in its place (the long buccal, the palate)
 * @param perTooth whether it is given tooth by tooth
 * @param bothSides whether it numbs both sides of the midline (the nasopalatine)
 * @param neverBothSides whether a right and a left one may never be given in one visit, even where
 *     one numb side is relaxed (the inferior alveolar block)
 * @param acrossMidline positions 1 to 3 at which an infiltration may be given on the other side of
 *     the midline too, where the practice lets front teeth be numbed across it
 * @param pulp positions whose pulp it numbs
 * @param mesiobuccalRoot whether it numbs the mesiobuccal root of the upper first molar
 * @param facial positions whose facial gingiva it numbs
 * @param lingual positions whose lingual or palatal gingiva it numbs
 * @param notDependable what of that it does not numb dependably enough to count
 * @param volumes one or more, ascending
 * @param mlPerMinute rate, where it is given slower than the practice gives others
 * @param pulpOnsetMinutes where the pulp takes longer than the agent's own onset
 * @param tissueOnsetMinutes where soft tissue takes longer than the agent's own onset
 * @param failureShare share of these injections that fail and are repeated, above 0 and below 1;
 *     null where that is not reckoned with
 * @param source what the coverage rests on
 */
@Withers
public record Injection(
    String name,
    Jaw jaw,
    Technique technique,
    boolean superficial,
    boolean perTooth,
    boolean bothSides,
    boolean neverBothSides,
    List<Integer> acrossMidline,
    List<Integer> pulp,
    boolean mesiobuccalRoot,
    List<Integer> facial,
    List<Integer> lingual,
    List<NotDependable> notDependable,
    List<Volume> volumes,
    @Nullable Figure mlPerMinute,
    @Nullable Figure pulpOnsetMinutes,
    @Nullable Figure tissueOnsetMinutes,
    @Nullable Figure failureShare,
    String source)
    implements InjectionBuilder.With {

  public Injection {
    acrossMidline = List.copyOf(acrossMidline);
    notDependable = List.copyOf(notDependable);
    volumes = List.copyOf(volumes);
  }

  /** What an injection numbs. */
  public enum Tissue {
    PULP("pulp"),
    FACIAL("facial"),
    LINGUAL("lingual");

    private final String word;

    Tissue(String word) {
      this.word = word;
    }

    /** As written in files. */
    public String word() {
      return word;
    }
  }

  /**
   * What an injection numbs, but not dependably.
   *
   * @param tissue pulp stands for the mesiobuccal root of the upper first molar too
   * @param drugs with which that is so; empty for all
   */
  public record NotDependable(
      Tissue tissue, List<Integer> positions, List<String> drugs, String source) {

    public NotDependable {
      positions = List.copyOf(positions);
      drugs = List.copyOf(drugs);
    }
  }

  /**
   * An amount in which it is given.
   *
   * @param pulpalMinutes how long pulp stays numb at the most, whatever the agent; null where the
   *     agent alone says
   */
  public record Volume(Figure ml, @Nullable Figure pulpalMinutes) {}

  /** Whether it is a block that alerts may ask infiltrations in place of. */
  public boolean deepBlock() {
    return technique == Technique.BLOCK && !superficial;
  }

  /** Whether it is a deep block of lower teeth, after which paraesthesia is reported most. */
  public boolean lowerBlock() {
    return deepBlock() && jaw == Jaw.LOWER && !pulp.isEmpty();
  }

  /** The smallest volume. */
  public Figure ml() {
    return volumes.get(0).ml();
  }
}
