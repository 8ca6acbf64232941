package quadrille.cli.render;

import quadrille.plan.course.HardRule;

/** Hard rules by their names, and how many visits, for whatever speaks of either. */
final class RuleWords {

  private RuleWords() {}

  /** A hard rule by its name; its number is for those who write rules. */
  static String rule(HardRule rule) {
    return switch (rule) {
      case ONE_NUMB_SIDE -> "one numb side";
      case PROMISED_SIDE -> "promised side";
      case NO_DOUBLE_BLOCK -> "no double block";
      case DOSE -> "dose";
      case DOSE_OF_THE_DAY -> "dose of the day";
      case BOOKED_LENGTH -> "booked length";
      case LENGTH -> "length";
      case WHOLE_MOUTH_GROSS_FIRST -> "gross of the whole mouth first";
      case ORDER_OF_PASSES -> "order of passes";
      case ORDER_OF_PASSES_IN_A_VISIT -> "order of passes in a visit";
      case TOGETHER -> "together";
      case IMPLANTS -> "implants";
      case NUMBNESS_LASTS -> "numbness lasts";
      case KITS -> "kits";
      case STERILE_SETS_OF_THE_DAY -> "sterile sets of the day";
      case ALERTS -> "alerts";
      case OPENING -> "opening of a visit";
      case START_WITH_THE_COMPLAINT -> "start with the complaint";
      case BEGUN_IS_FINISHED -> "begun is finished";
      case WISHED -> "wishes";
      case NO_EMPTY_VISIT -> "no empty visit";
    };
  }

  static String visits(int number) {
    return number + (number == 1 ? " visit" : " visits");
  }
}
