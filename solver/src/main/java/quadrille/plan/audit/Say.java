package quadrille.plan.audit;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/**
 * How findings put things into words.
 *
 * @param numbering the chart's, by which teeth are named
 */
record Say(Numbering numbering) {

  String tooth(Tooth tooth) {
    return numbering.name(tooth);
  }

  String teeth(Collection<Tooth> teeth) {
    return String.join(" ", teeth.stream().map(this::tooth).toList());
  }

  String area(AreaRef area) {
    Tooth from = area.from();
    Tooth to = area.to();
    String half = area.quadrant() + " " + area.half().word();
    if (from == null || to == null) {
      return half;
    }
    return half + " " + tooth(from) + (from.equals(to) ? "" : "-" + tooth(to));
  }

  String wish(Wish wish) {
    return wish.words(numbering);
  }

  String injection(InjectionRef ref) {
    Tooth tooth = ref.tooth();
    return ref.injection() + " " + (tooth == null ? ref.quadrant().side().word() : tooth(tooth));
  }

  /** In words, such as {@code UR posterior, fine, facial (14 15)}. */
  String step(Step step) {
    return area(step.area().ref())
        + ", "
        + step.pass().word()
        + ", "
        + step.aspect().word()
        + " ("
        + teeth(step.teeth())
        + ")";
  }

  String targets(Collection<Target> targets) {
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
