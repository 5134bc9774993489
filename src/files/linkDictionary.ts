/**
 * What a design usually says, as the dictionary that links are compressed with (RFC 1950, preset dictionary):
 * text that stands here costs two or three bytes in a link. What is most common stands last, where it is
 * cheapest to refer to. Links of version 1 can be read with exactly this text and no other, so it never
 * changes; a better one would be the dictionary of link version 2.
 */

const TIMBERS =
  'indian-rosewood sapele american-holly bloodwood african-ebony wenge bubinga african-padauk purpleheart teak ' +
  'honduran-mahogany american-basswood american-beech yellow-poplar red-oak white-oak white-ash yellow-birch ' +
  'black-cherry red-maple soft-maple sugar-maple hard-maple black-walnut ';

const RARE =
  '{"active":0,"variants":[{"name":"Variant 1","note":"","design":{"name":"Variant 2","design":{' +
  '"notes":"","colors":{"black-walnut":"#' +
  '"saw":{"stop_side":"obtuse","fence_min_deg":30,"fence_max_deg":90,"max_cut_height_mm":150,' +
  '"strip_overhang_mm":3,"angle_tolerance_deg":0.1,"stop_tolerance_mm":0.1,"strip_tolerance_mm":0.0508,' +
  '"max_open_slots":1,"clamp_minutes":20}}' +
  '],"loop":true,"holes":[{"from":"head","diameter_mm":25,"depth_mm":50},{"from":"foot","diameter_mm":10,' +
  '"depth_mm":null,"offset_mm":0,"azimuth_deg":90,"z_mm":' +
  '"finish":"gloss"}"finish":"raw"}' +
  '"grain":{"along":"across","azimuth_deg":0,"pith_mm":[0,0]}"grain":"depth"}' +
  '"section":{"shape":"round"{"shape":"octagon"{"shape":"hexagon"{"shape":"rectangle","width_mm":50,"depth_mm":' +
  '"order":["S1.1","S2.1","S3.1","S4.1","S1.2","S2.2","S3.2","S4.2","S1.3","S1.4","S2.3","S2.4"],' +
  '"locked":true,"notes":"';

const USUAL =
  '{"format":"kerfweave-design","version":1,"name":"New design","unit":"mm",' +
  '{"format":"kerfweave-design","version":2,"name":"rings on a","unit":"in",' +
  '"blank":{"section":{"shape":"square","width_mm":76.2},"length_mm":203.2,"timber":"black-walnut"},"sets":[' +
  '{"id":"S2","angle_deg":60,"center_mm":101.6,"fence_azimuths_deg":[0,60,120,180,240,300],' +
  '[0,45,90,135,180,225,270,315],"high_side":"entry","kerf_mm":3.175,"web_mm":3,' +
  '"fence_azimuths_deg":[0,180],"kerf_mm":1.016,"strip":{"layers":[{"timber":"hard-maple","thickness_mm":1.016},' +
  '{"timber":"black-walnut","thickness_mm":0.5}]}}],"form":{"outline":[{"z_mm":0,"r_mm":0},{"z_mm":' +
  ',"r_mm":25.4,"smooth":true},{"z_mm":203.2,"r_mm":0}]}}' +
  '{"id":"S1","angle_deg":45,"center_mm":100,"fence_azimuths_deg":[0,90,180,270],"kerf_mm":1.5875,"web_mm":2.54,' +
  '"strip":{"layers":[{"timber":"hard-maple","thickness_mm":2.032}]}},{"id":"S';

export const LINK_DICTIONARY_1: Uint8Array = new TextEncoder().encode(TIMBERS + RARE + USUAL);
