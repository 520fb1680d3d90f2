/**
 * What coaches dispute, each with the shipped experiments that settle it: `says` is the claim, `so` what they found in
 * short, `asks` the experiments, `only` the findings quoted where not all belong to the claim, `shows` measures quoted
 * from the baseline beside the answer, `but` what the experiment leaves out or why none is there.
 * The claims are common practice in coach education, without a source that measured them.
 */
export const CLAIMS = [
  {
    says: "Farther out is always better on a clear shot",
    so: "Not close in: from 5 m there is a best depth, with less on either side. From 8 m on there is little to gain beyond some 2.5 m",
    asks: ["depth-straight-shots"],
  },
  {
    says: "At the top of the crease the net is 3 x 5 ft",
    asks: [],
    but: "Plane geometry, no shots needed: 6 ft out the mouth shrinks to (D - 6 ft) / D of itself, 2.4 x 1.6 ft for a puck at D = 10 ft and 5.4 x 3.6 ft at 60 ft, so that the saying fits no single distance. `depth-and-the-box` has the open net behind a goalie",
  },
  {
    says: "Position alone stops 80 % (or 90 %)",
    so: "Less than that",
    asks: ["clean-set-mix"],
    shows: ["position_rate"],
    but: "Saved by position counts shots on goal that the body stops frozen as it stands",
  },
  {
    says: "Half a second of clear sight: there is a knee",
    asks: [],
    but: "No play sets the time in sight by itself; `screen-depth` and `screen-peek` report it",
  },
  {
    says: "Inside-out beats backing in on the rush",
    so: "Inside out by far against a late pass; against the shot itself by a few points at slow entries, and not told apart at fast ones",
    asks: ["inside-out-or-outside-in", "entry-speed"],
  },
  {
    says: "How far out on a breakaway: five sources, five answers",
    so: "At home when a deke may come; far out against the shot alone. The quicker the skating backward, the farther out costs nothing",
    asks: ["breakaway-start", "breakaway-speed", "breakaway-retreat"],
  },
  {
    says: "Start back when the shooter is at the circle tops",
    so: "No where a deke may come: sooner, from about the blue line. Against the shot alone, yes or later",
    asks: ["breakaway-trigger"],
  },
  {
    says: "Make the shooter deke",
    so: "No: never saved more often than a shot, and far less often with the goalie far out",
    asks: ["breakaway-start"],
    only: ["Shot", "Deke"],
    but: "The curves of shot and deke stand side by side there; no goalie here bites on a fake",
  },
  {
    says: "A braking shooter strands the goalie",
    so: "No: each from its best start, a braked shot is saved as often as one in stride",
    asks: ["breakaway-start"],
    only: ["Shot", "Braked shot"],
  },
  {
    says: "Angle before depth",
    so: "Yes against depth first, by far; a straight path is as good or better",
    asks: ["angle-or-depth-first"],
  },
  {
    says: "Two small gaps beat one large one",
    asks: [],
    but: "`goalie.five_hole` and `goalie.hands_out` trade gaps and can be swept; no experiment asks",
  },
  {
    says: "Never let a screen back you in",
    so: "Not so: before a body in the way, any depth up to a good metre is as good",
    asks: ["screen-depth"],
  },
  {
    says: "Peek, or keep the line",
    so: "A step of a hand's breadth at most, and what it gains cannot be told from nothing",
    asks: ["screen-peek"],
  },
  {
    says: "Hands forward shrink the box; hands close react better from far",
    so: "Hands forward do shrink the box, and save less; hands beside the hips are best from everywhere",
    asks: ["hands"],
  },
  {
    says: "Glove fingers up, or handshake",
    asks: [],
    but: "The turn of the catching glove about the wrist is not modelled; `glove-open-closed` asks what opening it is worth",
  },
  {
    says: "RVH is overused",
    so: "With the skate at the post it saves more than the overlap at 55 deg and less at 75 deg; VH saves most at every angle asked",
    asks: ["sharp-angle-techniques"],
    but: "For the shot alone, and with the near pad's toe some centimetres short of the post: what comes off the post is not in it",
  },
  {
    says: "Short side first at a sharp angle",
    so: "A few degrees do; from 65 deg more costs nothing either. Little is won, and little lost",
    asks: ["short-side-first"],
  },
  {
    says: "Never cheat to the back door",
    so: "True until about every third play is the pass",
    asks: ["back-door-hold-or-cheat"],
  },
  {
    says: "Small goalies must play farther out",
    so: "Yes, by a third of a metre between the smallest and the tallest",
    asks: ["goalie-size"],
  },
  {
    says: "Big ice asks for another depth",
    so: "Hardly: none for the same play, a hand's breadth deeper at most for a wider one",
    asks: ["big-ice"],
  },
  {
    says: "A narrow stance is quicker, a wide one covers",
    so: "A wide one covers",
    asks: ["stance-width"],
    but: "What it covers; that it pushes off sooner is not modelled",
  },
  {
    says: "Drop early, or late",
    so: "Early",
    asks: ["drop-early-or-late"],
    but: "No shooter here waits for a goalie who goes down early, so that early has no price but what it opens",
  },
  {
    says: "Block when too close to react",
    so: "Yes in tight; where reacting overtakes it is not found",
    asks: ["react-or-block"],
    but: "A block here is an early drop with the hands still to come: it gives nothing away far out, so that no distance is found where reacting wins",
  },
  {
    says: "Young goalies should come out and stay up",
    so: "Before a full goal yes; before a youth goal it hardly matters",
    asks: ["youth-goal"],
    but: "How far out; staying up is not asked",
  },
  { says: "Line up on the puck, not on the body", so: "Yes: the nearer the shooter, the more", asks: ["puck-or-body"] },
  {
    says: "Shooters aim by what their eyes see, not the puck",
    so: "It makes no difference that can be told",
    asks: ["puck-or-eyes"],
    but: "What it would be worth, not whether they do",
  },
  {
    says: "Rebounds matter most",
    so: "Not here",
    asks: ["rebound-control"],
    but: "Second shots are saved too often here, so that what they are worth is too little",
  },
  {
    says: "Lateral speed is what to train",
    so: "For the same share of improvement reaction gains most; what most of the spread hangs on is not settled",
    asks: ["what-training-is-worth-most"],
    but: "Over clear shots, where no goalie goes across; `pass-speed-and-push` tells what a quicker push is worth",
  },
]
