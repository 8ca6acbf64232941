package quadrille.plan.audit;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/**
 * How findings put things into words. Teeth stand in them as values, between two code points that
 * no text may hold, until {@link Findings} names them by the chart's numbering.
 */
final class Say {

  /** Noncharacters, which Unicode keeps for use inside a program. */
  private static final String OPEN = "\ufdd0";

  private static final String CLOSE = "\ufdd1";
  private static final Pattern TOOTH = Pattern.compile(OPEN + "(..)([1-8])" + CLOSE);

  private Say() {}

  static String tooth(Tooth tooth) {
    return OPEN + tooth.quadrant() + tooth.position() + CLOSE;
  }

  static String teeth(Collection<Tooth> teeth) {
    return String.join(" ", teeth.stream().map(Say::tooth).toList());
  }

  static String area(AreaRef area) {
    Tooth from = area.from();
    Tooth to = area.to();
    String half = area.quadrant() + " " + area.half().word();
    if (from == null || to == null) {
      return half;
    }
    return half + " " + tooth(from) + (from.equals(to) ? "" : "-" + tooth(to));
  }

  static String wish(Wish wish) {
    return wish.words(Say::tooth);
  }

  static String injection(InjectionRef ref) {
    Tooth tooth = ref.tooth();
    return ref.injection() + " " + (tooth == null ? ref.quadrant().side().word() : tooth(tooth));
  }

  /** With the teeth named by a numbering. */
  static String named(String message, Numbering numbering) {
    return TOOTH
        .matcher(message)
        .replaceAll(
            found ->
                numbering.name(
                    new Tooth(Quadrant.valueOf(found.group(1)), Integer.parseInt(found.group(2)))));
  }

  /** In words, such as {@code UR posterior, fine, facial (14 15)}. */
  static String step(Step step) {
    return area(step.area().ref())
        + ", "
        + step.pass().word()
        + ", "
        + step.aspect().word()
        + " ("
        + teeth(step.teeth())
        + ")";
  }

  static String targets(Collection<Target> targets) {
    List<String> words =
        targets.stream()
            .map(
                target ->
                    switch (target.kind()) {
                          case PULP -> "pulp of ";
                          case MESIOBUCCAL_ROOT -> "mesiobuccal root of ";
                          case FACIAL -> "facial gingiva of ";
                          case LINGUAL -> "lingual gingiva of ";
                        }
                        + tooth(target.tooth()))
            .toList();
    return String.join(", ", words);
  }

  /** Seconds as minutes at two decimals. */
  static String minutes(double seconds) {
    return String.format(Locale.ROOT, "%.2f", seconds / 60);
  }

  /** A number without trailing zeros, at most so many decimals. */
  static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }

  static String list(Collection<String> words) {
    return words.isEmpty() ? "none" : String.join(", ", words);
  }
}
