package quadrille.cli.render.picture;

/**
 * The colour of a visit, from the colour-blind-safe palette of Okabe and Ito without its black
 * (https://jfly.uni-koeln.de/color/), ordered so that neighbours differ in lightness and stay apart
 * in black and white. Wherever a visit has its colour, its number stands too: the eighth visit
 * starts over.
 */
public final class VisitColour {

  private static final int COLOURS = 7;

  private VisitColour() {}

  /** The style class of a visit, {@code visit-1} to {@code visit-7}. */
  public static String styleClass(int visit) {
    return "visit-" + (Math.floorMod(visit - 1, COLOURS) + 1);
  }
}
