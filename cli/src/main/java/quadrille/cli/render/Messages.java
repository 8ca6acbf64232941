package quadrille.cli.render;

/** Messages to a person that quote what stands in files. */
public final class Messages {

  private Messages() {}

  /** The words without anything that could steer a terminal or forge a line. */
  public static String clean(String words) {
    return Page.clean(words);
  }
}
