// The networks of networks.json by a general hydraulic engine (EPANET, epanet-js): Darcy-Weisbach, roughness 0.0015 mm, emitters, and a
// pump whose three points lie on shutoff - a Q^2. Prints network,what,index,value with flows in L/h and heads in m.
const { Project, Workspace, NodeType, LinkType, FlowUnits, HeadLossType, NodeProperty, LinkProperty, Option } = require('epanet-js');
const networks = require('./networks.json');

async function solve(network, number, workspace) {
  const model = new Project(workspace);
  model.init('r.rpt', 'o.bin', FlowUnits.LPM, HeadLossType.DW);
  const [shutoff, full] = network.pump;
  const [emitted, at, exponent] = network.emitter;
  const nodes = network.nodes.map(([name, kind, height], i) => {
    const node = model.addNode('n' + i, NodeType.Junction);
    model.setJunctionData(node, height, 0, '');
    if (kind === 'tier')
      model.setNodeValue(node, NodeProperty.Emitter, network.emitters_per_tier * emitted / 60 / Math.pow(at, exponent));
    return node;
  });
  const tank = model.addNode('tank', NodeType.Reservoir);
  model.setNodeValue(tank, NodeProperty.Elevation, 0);
  const pipes = network.pipes.map(([from, to, diameter, length, k], i) => {
    const pipe = model.addLink('p' + i, LinkType.Pipe, 'n' + from, 'n' + to);
    model.setPipeData(pipe, length, 1000 * diameter, 0.0015, k);
    return pipe;
  });
  const pump = model.addLink('pump', LinkType.Pump, 'tank', 'n0');
  model.addCurve('c');
  const curve = model.getCurveIndex('c');
  model.setCurve(curve, [0, 0.4, 0.8].map(x => x * full / 60), [0, 0.4, 0.8].map(x => shutoff * (1 - x * x)));
  model.setHeadCurveIndex(pump, curve);
  model.setOption(Option.Emitexpon, exponent);
  model.setOption(Option.Accuracy, 1.1e-5);
  model.setOption(Option.Trials, 500);
  model.setOption(Option.HeadError, 1e-6);
  model.solveH();
  const say = (what, index, value) => console.log([number, what, index, value].join(','));
  say('pump', 0, 60 * model.getLinkValue(pump, LinkProperty.Flow));
  pipes.forEach((pipe, i) => say('flow', i, 60 * model.getLinkValue(pipe, LinkProperty.Flow)));
  nodes.forEach((node, i) => say('head', i, model.getNodeValue(node, NodeProperty.Head)));
}

(async () => {
  const workspace = new Workspace();
  if (workspace.loadModule) await workspace.loadModule();
  console.log('network,what,index,value');
  for (let i = 0; i < networks.length; ++i) await solve(networks[i], i, workspace);
})().catch(error => { console.error(error); process.exit(1); });
