// The scenes of the lesson: what is asked, what may be tried, and how the engine's numbers become sentences.
// Nothing here knows an answer beforehand. A scene names the runs that decide its question (`probes`); `right` takes
// what the engine found in them and says which choice holds, `told` words it. Text that holds figures is made from runs.
//
// A scene:
//   id, title, lead      what is seen
//   question, choices    [{id, words}], to be chosen before anything is tried
//   start                settings that differ from the usual ones
//   controls             the sliders that belong to the scene; all others stand under "More settings"
//   probes               {name: settings that differ from the start}
//   right(p)             the id of the choice that the probes bear out; p.start and p[name] are findings
//   told(p, say)         sentences on the probes
//   upset, stopAt        the pump stops in it; where its runs end (repeat.stop_at)
//   try                  what to move
//   now(f, p, say)       further sentences on what was just run, or nothing
//   chart                {kind, over, namesAt}: see lesson_chart.js
//   rule                 the sentence to take home; a test holds each against the engine (tests/pages/lesson.test.mjs)
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  const usual = {rock: "hard_sandstone", weight: 8000, speed: 85, flow: 60, air: 400, fluid: "water", wear: 0.5, bevel: 0.4,
                 leached: "no", feet: 2, seconds: 240};

  const most = (findings, value) =>
    Object.keys(findings).reduce((best, key) => (value(findings[key]) > value(findings[best]) ? key : best));

  const scenes = [
    {
      id: "heat",
      title: "Heat is force times speed",
      lead: "Half the life of this bit is gone: every cutter has a flat worn on it. It stands on hard sandstone with little " +
            "weight, turning slowly.",
      question: "You double one thing. Which makes the flats hotter?",
      choices: [{id: "weight", words: "Twice the weight"}, {id: "speed", words: "Twice the speed"},
                {id: "same", words: "Both about the same"}],
      start: {weight: 6000, speed: 60, wear: 0.8},
      controls: ["weight", "speed", "wear"],
      probes: {weight: {weight: 12000}, speed: {speed: 120}},
      right(p) {
        const byWeight = p.weight.hot - p.start.hot, bySpeed = p.speed.hot - p.start.hot;
        if (Math.abs(byWeight - bySpeed) < 0.2 * Math.max(byWeight, bySpeed)) return "same";
        return byWeight > bySpeed ? "weight" : "speed";
      },
      told(p, say) {
        const all = [`Twice the speed takes the hottest flat from ${say.T(p.start.hot)} to ${say.T(p.speed.hot)}: ` +
                     "every flat rubs twice the distance in a second."];
        if (p.weight.rate > 2 * p.start.rate)
          all.push(`Twice the weight takes it to ${say.T(p.weight.hot)}, and progress from ${say.rate(p.start.rate)} to ` +
                   `${say.rate(p.weight.rate)}: the flats carried what they can already. The new weight pushes the edges ` +
                   "into the rock, and that heat leaves with the chips.");
        else
          all.push(`Twice the weight takes it to ${say.T(p.weight.hot)}: the bit still skids, and the flats carry it all.`);
        return all;
      },
      try: "Make it hot with weight alone, then with speed alone. Then wear the bit down further and try weight again.",
      chart: {kind: "curve", over: "speed", namesAt: 0.02},
      rule: "Heat is the force on the flats times their speed. Speed always heats. Weight heats while the bit skids; once it " +
            "bites, more weight cuts.",
    },
    {
      id: "flow",
      title: "The flow carries it away",
      lead: (say, s) => `The same rock, ${say.lbf(s.weight)} on the bit, ${say.gpm(s.flow)} of water. Then the swivel starts to ` +
                        "leak, more and more.",
      question: "How far may the flow fall before a flat passes the first line, where diamond begins to wear faster?",
      choices: [{id: "early", words: "It is past the line at half the flow"},
                {id: "third", words: "At about a third of it"},
                {id: "late", words: "Not before a sixth or less is left"}],
      start: {flow: 60},
      controls: ["flow", "fluid", "speed"],
      probes: {half: {flow: 30}, third: {flow: 20}, sixth: {flow: 10}, twelfth: {flow: 5}},
      right(p) {
        if (p.half.hot > p.marks.faster) return "early";
        return p.third.hot > p.marks.faster ? "third" : "late";
      },
      told(p, say) {
        const all = [`Half the flow: ${say.T(p.half.hot)} in place of ${say.T(p.start.hot)}. A third: ${say.T(p.third.hot)}. ` +
                     `A sixth: ${say.T(p.sixth.hot)}. A twelfth: ${say.T(p.twelfth.hot)}.`];
        if (p.twelfth.rate < 0.8 * p.start.rate)
          all.push(`Long before it burns, it slows: ${say.rate(p.start.rate)} at full flow, ${say.rate(p.sixth.rate)} at a ` +
                   "sixth. Cuttings stay and are ground again.");
        if (p.twelfth.film > 0) all.push("At a twelfth, steam covers the flats, and steam cools badly.");
        return all;
      },
      try: "Find the flow at which the line is crossed. Speed up the bit and find it again. Then try mud, and air.",
      chart: {kind: "curve", over: "flow"},
      rule: "Flow has a cliff. Above it more flow hardly cools; below it cuttings stay, steam forms and the flats burn. " +
            "If progress falls off and nothing else changed, look at the flow.",
    },
    {
      id: "pump",
      title: "Stop the pump and watch the seconds",
      lead: "Granite, a half-worn bit, full weight. The pump stops. Nobody lifts the bit.",
      question: "How long until a flat is past the line where diamond wears faster?",
      choices: [{id: "second", words: "About a second"}, {id: "half", words: "Up to half a minute"},
                {id: "minutes", words: "Some minutes"}, {id: "never", words: "It never is"}],
      start: {rock: "granite", weight: 11000, speed: 85, wear: 0.6, seconds: 240},
      controls: ["weight", "speed", "rock", "seconds"],
      probes: {},
      upset: true,
      right(p) {
        const t = p.start.crossed.faster;
        if (t === null) return "never";
        return t < 3 ? "second" : t <= 30 ? "half" : "minutes";
      },
      told(p, say) {
        const c = p.start.crossed, all = [];
        all.push(c.faster === null ? `The hottest flat gets to ${say.T(p.start.hot)} and stays under the line.`
                                   : `The pump stops at ${say.T(p.start.before)}. The line at ${say.T(p.marks.faster)} is ` +
                                     `crossed after ${say.seconds(c.faster)}.`);
        if (c.ruin !== null)
          all.push(`After ${say.seconds(c.ruin)} a flat is at ${say.T(p.marks.ruin)}, where diamond is lost within seconds to ` +
                   "minutes.");
        if (p.start.ruined !== null)
          all.push(`The first diamond table is ruined after ${say.seconds(p.start.ruined)}.`);
        return all.concat(p.start.storyOf(say));
      },
      now(f, p, say) {
        const all = [];
        if (f.crossed.faster !== null) all.push(`Past ${say.T(p.marks.faster)} after ${say.seconds(f.crossed.faster)}.`);
        if (f.crossed.ruin !== null) all.push(`Past ${say.T(p.marks.ruin)} after ${say.seconds(f.crossed.ruin)}.`);
        all.push(f.ruinedCount > 0 ? `Diamond tables ruined by heat in this hole: ${f.ruinedCount}.`
                                   : "No diamond table is ruined by heat in this hole.");
        if (f.quench > 0) all.push(`When the pump comes back, cold flow meets diamond at ${say.T(f.quench)}.`);
        return all;
      },
      try: "Play the seconds. Then give yourself less time before you notice, less weight, or softer rock.",
      chart: {kind: "seconds"},
      rule: "Pump off: lift off bottom at once. In hard rock under load the first line goes by in seconds, and diamond is lost " +
            "within minutes.",
    },
    {
      id: "limits",
      title: "Two lines: wear runs away, then diamond is lost",
      lead: "Granite at full weight with some wear on the bit. You speed up until the flats are past the first line.",
      question: "From 80 to 120 rpm: by how much does wear a foot go up?",
      choices: [{id: "little", words: "Half as much again, like the speed"}, {id: "some", words: "Two to five times"},
                {id: "lots", words: "More than five times"}],
      start: {rock: "granite", weight: 12000, speed: 80, wear: 0.6},
      controls: ["speed", "weight", "leached"],
      probes: {faster: {speed: 120}, leached: {speed: 120, leached: "yes"}},
      right(p) {
        const times = p.faster.wear / p.start.wear;
        return times < 2 ? "little" : times <= 5 ? "some" : "lots";
      },
      told(p, say) {
        const all = [`At 80 rpm the hottest flat runs at ${say.T(p.start.hot)}, at 120 rpm at ${say.T(p.faster.hot)}. Wear a foot ` +
                     `goes up ${say.times(p.faster.wear / p.start.wear)}, though the bit turns only half as fast again.`];
        if (p.leached.wear < p.faster.wear)
          all.push(`With leached tables, at 120 rpm: ${say.T(p.leached.hot)}, and wear a foot ` +
                   `${say.times(p.leached.wear / p.start.wear)} that of 80 rpm. Leached diamond has no cobalt near its ` +
                   "surface, so it stands more heat.");
        return all;
      },
      now(f, p, say) {
        if (f.ruinedCount > 0) return [`${say.count(f.ruinedCount, "diamond table")} ruined by heat: from there the cutter ` +
                                       "wears like carbide."];
        if (f.damage > 0.01) return [`The hottest table has used ${say.share(f.damage)} of its life in heat, in this short ` +
                                     "stretch alone."];
        return [];
      },
      try: "Go up in speed until a diamond is lost. Then leach the tables and go up again.",
      chart: {kind: "wear_over_heat", over: "speed"},
      rule: (say, marks) => `Past ${say.T(marks.faster)} diamond wears faster and faster; near ${say.T(marks.ruin)} it is lost. ` +
                            "Leached tables hold longer, while the leached layer lasts.",
    },
    {
      id: "dull",
      title: "A dull cutter runs hotter, so wear feeds on itself",
      lead: (say, s) => `One setting: ${say.lbf(s.weight)}, ${s.speed} rpm, hard sandstone. Only the bit gets older.`,
      question: (say) => `The cutters wear down by ${say.mm(1)}. What happens to the hottest flat?`,
      choices: [{id: "cooler", words: "It runs cooler: a big flat spreads the heat"},
                {id: "same", words: "It stays about the same"}, {id: "hotter", words: "It runs much hotter"}],
      start: {weight: 10000, speed: 100, wear: 0},
      controls: ["wear", "weight", "speed"],
      probes: {worn: {wear: 1}},
      right(p) {
        const change = p.worn.hot - p.start.hot;
        return change < -10 ? "cooler" : change < 40 ? "same" : "hotter";
      },
      told(p, say) {
        const all = [`New: ${say.T(p.start.hot)}. With ${say.mm(1)} gone: ${say.T(p.worn.hot)}, under the same weight.` +
                     (p.worn.hot > p.start.hot ? " A bigger flat carries more of the weight, so more of the work is rubbing." : "")];
        if (p.worn.wear > p.start.wear)
          all.push(`Progress falls from ${say.rate(p.start.rate)} to ${say.rate(p.worn.rate)}, and each foot costs ` +
                   `${say.times(p.worn.wear / p.start.wear)} the wear of a new bit. So it is duller still for the next foot.`);
        return all;
      },
      try: "Age the bit from new to dull. Then find a setting at which the dull bit stays under the first line.",
      chart: {kind: "curve", over: "wear", second: "wearRate", namesAt: 0.02},
      rule: "Wear makes heat and heat makes wear. A bit that slows down at the same weight is getting dull: do not answer with " +
            "speed.",
    },
    {
      id: "outer",
      title: "Outer cutters lead",
      lead: "The cutters are numbered from the centre outward. All turn together, as the bit does.",
      question: "Which cutter runs hottest?",
      choices: [{id: "inner", words: "One near the centre"}, {id: "middle", words: "One halfway out"},
                {id: "outer", words: "One of the outer ones"}],
      start: {weight: 8000, speed: 85, wear: 0.5},
      controls: ["speed", "weight", "rock"],
      probes: {},
      right(p) {
        const share = p.start.hotRadius / p.start.bitRadius;
        return share < 1 / 3 ? "inner" : share < 2 / 3 ? "middle" : "outer";
      },
      told(p, say) {
        return [`Cutter ${p.start.hotCutter} of ${p.start.cutters} at ${say.T(p.start.hot)}; the coolest, cutter ` +
                `${p.start.coolCutter}, at ${say.T(p.start.cool)}. In one turn the outer one travels ` +
                `${say.times(p.start.hotRadius / p.start.coolRadius)} as far, and all that way it rubs.`];
      },
      now(f, p, say) {
        return [`Hottest: cutter ${f.hotCutter}. Most worn in this stretch: cutter ${f.wearCutter}.`];
      },
      try: "Change speed and weight: which cutters change most? Look at the same cutters on the bit.",
      chart: {kind: "cutters"},
      rule: "The outside of the bit goes farthest and wears first. When you inspect a bit, begin at the shoulder and the gauge.",
    },
    {
      id: "gravel",
      title: "Gravel, and what a bevel buys",
      lead: (say, s) => `A new bit goes through ${say.feet(s.feet)} of gravel. Stones knock at every edge.`,
      question: "What does a small bevel on the edges do there?",
      choices: [{id: "free", words: "Fewer chips, and it drills as fast"},
                {id: "price", words: "Fewer chips, but it drills slower"},
                {id: "nothing", words: "Nothing: stones chip any edge"}],
      start: {rock: "gravel", weight: 5500, speed: 110, wear: 0, bevel: 0, feet: 10},
      controls: ["bevel", "rock", "weight", "speed"],
      probes: {bevelled: {bevel: 0.4}, sandstone: {rock: "sandstone"}},
      right(p) {
        if (p.bevelled.chips > 0.8 * p.start.chips) return "nothing";
        return p.bevelled.rate < 0.9 * p.start.rate ? "price" : "free";
      },
      told(p, say) {
        const all = [`Sharp edges: ${say.chips(p.start.chips)} to be expected in this stretch. With a bevel of ${say.mm(0.4)}: ` +
                     `${say.chips(p.bevelled.chips)}.`];
        all.push(`Progress goes from ${say.rate(p.start.rate)} to ${say.rate(p.bevelled.rate)}: a blunter edge needs more ` +
                 "weight for the same cut.");
        all.push(`The same sharp bit in sandstone: ${say.chips(p.sandstone.chips)}.`);
        return all;
      },
      now(f, p, say) {
        return [`Chipped edges to be expected in this stretch: ${say.chips(f.chips)}. Most at risk: cutter ${f.chipCutter} ` +
                `(chance ${say.share(f.chipChance)}).`];
      },
      try: "Try each bevel. Then ease weight and speed as a careful driller would in gravel.",
      chart: {kind: "bevels"},
      rule: "Ease weight and speed through gravel. A bevel saves edges and costs progress. How often edges chip is a " +
            "comparison here, not a promise.",
    },
    {
      id: "pull",
      title: "Pull in time, or pay",
      lead: (say, s) => `A new bit on a rig that is paid by the hour, in granite, ${say.lbf(s.weight)} and ${s.speed} rpm all ` +
                        "the way. With every foot the bit's price is shared by more hole, and the bit gets slower.",
      question: "When is the whole hole, bit and rig, cheapest by the foot?",
      choices: [{id: "early", words: (say) => `Within the first ${say.feet(150)} of granite`},
                {id: "middle", words: (say) => `Somewhere between ${say.feet(150)} and ${say.feet(300)}`},
                {id: "end", words: "At the very end: use the bit up"}],
      start: {rock: "granite", weight: 12000, speed: 85, wear: 0, feet: 200},
      stopAt: "beyond_repair",
      controls: ["feet", "weight", "speed"],
      probes: {long: {feet: 500}},
      right(p) {
        const best = p.long.cheapest;
        if (best === null || best.feet > 0.9 * p.long.drilled) return "end";
        return best.feet < 150 * 0.3048 ? "early" : best.feet < 300 * 0.3048 ? "middle" : "end";
      },
      told(p, say) {
        const all = [], best = p.long.cheapest;
        if (best)
          all.push(`Hole is cheapest when the bit is pulled after about ${say.depth(best.feet)} of granite: ${say.money(best.cost)}. ` +
                   `After ${say.depth(p.long.drilled)} it stands at ${say.money(p.long.endCost)}.`);
        if (p.long.dueFeet !== null)
          all.push(`Rework falls due after ${say.depth(p.long.dueFeet)} of it: ${p.long.dueWords}.`);
        if (p.long.beyondFeet !== null)
          all.push(`After ${say.depth(p.long.beyondFeet)} the bit is past repair: ${p.long.beyondWords}. Here the run ends; ` +
                   "from there pockets and blades go.");
        return all;
      },
      now(f, p, say) {
        return [`Pulled after ${say.depth(f.drilled)} of it: ${say.money(f.endCost)} for all of it so far, worst cutter ` +
                `${say.length(f.worn)} down.` + (f.repair ? ` The shop then: ${f.repair.replace(": ", "; ")}.` : "")];
      },
      try: "Move the depth at which you pull. Then find a setting with which the same bit lasts longer.",
      chart: {kind: "cost"},
      rule: "Pull for rework when it is due. Waiting saves no money: the bit slows down while the rig is paid by the hour, and " +
            "past repair a new bit is bought where a rework would have done.",
    },
    {
      id: "yours",
      title: "Your turn: as fast as it goes, but cool",
      lead: "Half-worn bit, granite. Drill as fast as you can and keep every flat under the first line.",
      question: "From here, which one step gains the most progress and stays under the line?",
      choices: [{id: "weight", words: "A third more weight"}, {id: "speed", words: "A third more speed"},
                {id: "flow", words: "A third more flow"}],
      start: {rock: "granite", weight: 10000, speed: 75, flow: 45, wear: 0.5},
      controls: ["weight", "speed", "flow", "fluid", "rock", "wear", "bevel", "leached"],
      probes: {weight: {weight: 13500}, speed: {speed: 100}, flow: {flow: 60}},
      right(p) {
        const all = {weight: p.weight, speed: p.speed, flow: p.flow};
        return most(all, (f) => (f.hot < p.marks.faster ? f.rate : 0));
      },
      told(p, say) {
        const one = (f) => `${say.rate(f.rate)} at ${say.T(f.hot)}`;
        return [`Now: ${one(p.start)}. More weight: ${one(p.weight)}. More speed: ${one(p.speed)}. More flow: ` +
                `${one(p.flow)}.`];
      },
      now(f, p, say, best) {
        const all = [f.hot < p.marks.faster ? "Every flat is under the line." : "A flat is past the line: this one does not count."];
        if (best) all.push(`Best so far: ${say.rate(best.rate)} at ${say.T(best.hot)}.`);
        return all;
      },
      try: "All sliders are yours. Beat the best so far.",
      chart: {kind: "cutters"},
      rule: "Weight to bite, speed only as far as the flats stay cool, flow enough to clean. Come up in steps, inside the rig's " +
            "and the bit's limits.",
    },
  ];

  dullcast.lessonScenes = scenes;
  dullcast.lessonUsual = usual;
})();
