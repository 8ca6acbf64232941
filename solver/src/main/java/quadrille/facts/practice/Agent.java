package quadrille.facts.practice;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A local anaesthetic, described by drug, strength and vasoconstrictor.
 *
 * @param name such as {@code articaine-4-200}
 * @param words such as {@code articaine 4 % with epinephrine 1:200,000}
 * @param drug such as {@code articaine}; alerts forbid by drug
 * @param vasoconstrictor {@code epinephrine}, {@code levonordefrin} or {@code none}; alerts forbid
 *     by it too
 * @param mgPerMl of the drug
 * @param epinephrineMgPerMl 0 where there is none
 * @param cartridgeMl contents of a cartridge
 * @param limits by rule set
 * @param pulpalMinutes how long pulp stays numb after the end of the injection, by technique
 * @param softTissueMinutes how long soft tissue stays numb after the end of the injection
 * @param onsetMinutes from the end of the injection, by technique
 * @param fromAgeYears not for a younger patient, nor for one of unknown age; null where its label
 *     names no age
 * @param lowerBlockPriceSeconds what it costs more in a lower block, in seconds of chair time; null
 *     for nothing
 * @param lowerBlockPulpalMinutes how long pulp stays numb after a deep block of lower teeth, where
 *     that is another time than after other blocks; null where it is not
 * @param amide whether it is of the amide kind, as all are that do not say otherwise
 */
public record Agent(
    String name,
    String words,
    String drug,
    String vasoconstrictor,
    Figure mgPerMl,
    Figure epinephrineMgPerMl,
    Figure cartridgeMl,
    Map<RuleSet, Limit> limits,
    Map<Technique, Figure> pulpalMinutes,
    Figure softTissueMinutes,
    Map<Technique, Figure> onsetMinutes,
    @Nullable Figure fromAgeYears,
    @Nullable Figure lowerBlockPriceSeconds,
    @Nullable Figure lowerBlockPulpalMinutes,
    boolean amide) {

  /** An amide that is for all ages. */
  public Agent(
      String name,
      String words,
      String drug,
      String vasoconstrictor,
      Figure mgPerMl,
      Figure epinephrineMgPerMl,
      Figure cartridgeMl,
      Map<RuleSet, Limit> limits,
      Map<Technique, Figure> pulpalMinutes,
      Figure softTissueMinutes,
      Map<Technique, Figure> onsetMinutes) {
    this(
        name,
        words,
        drug,
        vasoconstrictor,
        mgPerMl,
        epinephrineMgPerMl,
        cartridgeMl,
        limits,
        pulpalMinutes,
        softTissueMinutes,
        onsetMinutes,
        null,
        null,
        null,
        true);
  }

  /**
   * A maximum dose; at least one of the two is given, and the lower one holds.
   *
   * @param mgPerKg by body weight
   * @param capMg whatever the weight
   */
  public record Limit(@Nullable Figure mgPerKg, @Nullable Figure capMg) {

    /** The maximum in mg for a body weight in kg. */
    public double maxMg(double weightKg) {
      double byWeight = mgPerKg == null ? Double.POSITIVE_INFINITY : mgPerKg.value() * weightKg;
      double cap = capMg == null ? Double.POSITIVE_INFINITY : capMg.value();
      return Math.min(byWeight, cap);
    }
  }
}
