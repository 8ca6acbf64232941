package quadrille.facts.practice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;

/**
 * A kind of injection and what it numbs. Positions count 1 to 8 from the midline, on the side it is
 * given; where {@code perTooth}, they say for which teeth it can be given, and it numbs that tooth
 * alone.
 *
 * @param name the trade's name, such as {@code inferior alveolar}
 * @param technique decides onset and duration
 * @param perTooth whether it is given tooth by tooth
 * @param bothSides whether it numbs both sides of the midline (the nasopalatine)
 * @param neverBothSides whether a right and a left one may never be given in one visit, even where
 *     one numb side is relaxed (the inferior alveolar block)
 * @param pulp positions whose pulp it numbs
 * @param mesiobuccalRoot whether it numbs the mesiobuccal root of the upper first molar
 * @param facial positions whose facial gingiva it numbs
 * @param lingual positions whose lingual or palatal gingiva it numbs
 * @param ml volume
 * @param pulpOnsetMinutes where the pulp takes longer than the agent's own onset
 * @param tissueOnsetMinutes where soft tissue takes longer than the agent's own onset
 * @param source what the coverage rests on
 */
public record Injection(
    String name,
    Jaw jaw,
    Technique technique,
    boolean perTooth,
    boolean bothSides,
    boolean neverBothSides,
    List<Integer> pulp,
    boolean mesiobuccalRoot,
    List<Integer> facial,
    List<Integer> lingual,
    Figure ml,
    @Nullable Figure pulpOnsetMinutes,
    @Nullable Figure tissueOnsetMinutes,
    String source) {}
