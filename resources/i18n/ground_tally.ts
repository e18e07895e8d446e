<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" sourcelanguage="en">
<context>
    <name>GroundTally</name>
    <message>
        <source> in {crs}; ±{reach} at the worst station (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>! Assumed: nobody measured what these points are worth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>! The numbers do not come to the figure: see the end of the formula.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{crs}&quot; is no CRS that is known here. Give an authority code such as EPSG:25831, or leave it out to take the control&apos;s.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{text}&quot; does not begin with a file of the job and a colon. Write it like {file}: ..., with entries apart by semicolons; the files are {files}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{text}&quot; is not a gradient. Write it like 1:20, 5 % or 2.9 deg.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{text}&quot; is not a length. Write it like 12.4 m or 8&apos; 7 7/16&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{text}&quot; is not an accuracy. Write it like 0.5 % or 0.02 m + 0.3 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{text}&quot; says nothing of {file}, or says it twice. Write each file once, with what counts for it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{unit}&quot; is not a unit of length. Use one of: {units}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&quot;{unit}&quot; measures {is_}, &quot;{to}&quot; {other}. Choose two units of one kind.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Above the ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Accept</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Against</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Back to the list</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Check</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Clear</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Click two places</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Contours every</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Copy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Draw a line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Enlarge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Forecast</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Formula</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Held against</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Inside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Its CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Level</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Logs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Measure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;More</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;New job...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;New plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Open survey...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Pick on the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Point at the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Run again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Stations behind it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Stations behind it ({n})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Surface as it is</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Survey it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>(95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>({x:.3f}, {y:.3f}) is no place on the earth in the layer&apos;s CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0 for any amount.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0 for no mesh.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0 for no turf.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0.9: a cubic metre in the bank is 0.9 rolled in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 in {n} down</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 in {n} up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 in {run}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1, as picked (solid)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1.3: a cubic metre in the bank is 1.3 on the lorry.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>10 mm is common practice, no source. Tighter curves need radius units.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>12 by BS 5837:2012, from memory.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>15 by BS 5837:2012, from memory; 0 for none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>19 of 20 stay below (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>2, turned by half (dashed)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>24 to 30 is common practice, no source; 0 for no joints. No bay is longer than 1.5 times its width.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>3 % is common practice, no source.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>35 for a new lawn: common practice, no source.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>6 m is common practice, no source.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>95 %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>95 %, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>95 %, share</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; on {left:.2f} {unit} one of the two is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; worst point {size} (95 %), in {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; worst {mark}, {size}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; {n} without a figure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; {walk} closes to {size}, expected below {expected} (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; {weak} of {count} triangles are weak</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A band {width} m wide with a lap of {lap} m covers nothing. Give a smaller lap.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A baseline needs two different points. Draw it from one place to another.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A bed is set back with the library {library}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A breakline from {east:.3f}, {north:.3f} to {to_east:.3f}, {to_north:.3f} in the survey plane cannot be put in. Merge points within a larger distance, or leave out what lies too close to it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A direction for each row, in place of the one above.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A fall needs three points with heights; there are {count}. Give more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A figure that a phone recorded and that is less certain is kept out (SR-01).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A fit needs two different points at least; there are {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A full circle ends at its first station again. Wrong passing point? Correct the log, or accept it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A full circle needs two `curve` stations or more between its first station and the `curve-end` at the same place: walk it again with two.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A height in the surface&apos;s datum.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A hundred times rise by run.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A job has one control file: untick the other, or put all marks into one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A job has one control file: untick the other.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A lawn&apos;s edge is no line: this is how far to one side it may have been taken all along, one sigma (20 to 50 mm for turf: common practice, no source). It comes back in a column of its own, area_m2_edge_sigma, as this times the length of all edges.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A layer of three points with heights (z), or the three selected in it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A layer of triangles with heights, or a mesh, that inverts are held against; without it the line&apos;s own heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A layer of triangles with heights, or a mesh.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A layer of triangles with heights, or a mesh. It goes before the level and the thickness above.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A level at {place} is off the breakline {line} that it lies on by {off:.3f} m, more than three times what they are worth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A level runs evenly along an edge between its two stations; its 95 % is from theirs, taken to err together. A rise takes the two levels to err apart, which is too much where both hang on one datum.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A line cannot cross points. Choose a layer of lines or polygons as the features.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A load is {load}. Give a number above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A load, cubic metres loose</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A load, tonnes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A mark has no name. Give each a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A name is one line of {most} letters at the most; &quot;{name}&quot; is none. Give a shorter one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A new plan: set two marks at least, then draw the walk over them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A one-sigma of {sigma} m is none. Give metres, 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A pixel of {pixel} m and an accuracy of {accuracy} m are no sizes. Give both as 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A plane goes through three points with heights; the layer holds {count}, {good} of them with a height. Select three.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A plane goes through three points with heights; {count} were given. Give east, north and height of three.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point at {east:.3f}, {north:.3f} in the survey plane lies too near to others for a site of this size. Merge points within a larger distance, or build the surface in parts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point has no place or no height, so that its fall is not known. Give it one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point of the line has no place. Draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point of the section&apos;s line has no place. Draw the line again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point of the surface has no place or no height. Build it again without it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point of the surface has no place or no height. Build the surface again without it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A point&apos;s height ±{half:.3f} {unit} (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A projected CRS. What is measured stays true to the ground in any of them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A ramp walked as an area is not checked here: give its middle line under Ramps, with a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A residual has no uncertainty of its own: it shows how well the map points fit the survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A ring is open by {gap:.3f} m.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A ring lies on one line, so it has no area.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A round bottom {width:.3f} m wide is at most half as deep, and it is {depth:.3f} m. Choose another form, or correct width or depth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A row of figures each, voids out; where it is empty, all of the surface is one row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A second GeoPackage, _chorded, with arcs as chords; its figures are the exact ones.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A section needs a line of two different points. Draw it from one place to another.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A shapefile keeps ten letters of a column&apos;s name. A GeoPackage (.gpkg) keeps all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A size along the line is no number, or has no place. Give pairs of chainage and size.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A size of the planting is below 0, or no seed is alive. Give sizes of 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A slope of {length:g} m cannot rise {rise:g} m. Check both figures, and their units.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A station stands on a mark within, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A surface has a point without place or height. Build it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A surface has no triangles, so there is nothing to measure.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A surface needs three points or more that are not in line; {count} are given.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A surface needs {library}, which this QGIS lacks. Install it for QGIS&apos;s Python (pip install scipy, or your system&apos;s package python3-scipy), then run this again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A surface of triangles through points of known height, with breaklines as edges of it, inside a boundary and outside voids: from layers of any CRS, or from a survey&apos;s own levels and walked edges.

Surface has a row for each triangle, with its corners as exact numbers and what their heights are worth, so that sections and volumes open the surface again as it was. rough_m is one standard deviation of the ground off the triangles between the points, found by leaving out each point in turn, and reach_m is how far such a departure hangs together; rough_m is empty where too few points stand inside to tell. Triangles with is_weak are far from every point, stand on one line of points, or are slivers of the rim: do not lean on them. Contours are exact, with, higher ground on the left of each, height_m_sigma being what the surface&apos;s height is worth along it and shift_m_sigma how far it may lie to one side. Mesh file is the surface as a mesh.

Points within a millimetre in plan are one. Risers, and a wall&apos;s foot and top over each other (one line, or the parts foot and top of one feature), are built leaning by 2 mm and told. Other breaklines that meet at different heights, by more than three times what they are worth, are refused with place and difference. Boundaries and voids without heights are laid on the ground.

Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A table, but none that is read. Say which column is which, or untick it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A third shared mark off the line of the others would; the picture shows it too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A triangle has a corner without a height. Choose a layer with heights (z).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A unit is {unit} m long and may sag {sag} m. Give both above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A vertex of a planned line has no place. Draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A vertex of {layer} lies outside what its CRS can hold. Check the layer&apos;s CRS, and mend the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A volume from end areas needs two sections or more, in the order of their chainages.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A way cannot be {width:g} m wide. Give its width in metres, or 0 where it is not known.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A whole circle is drawn as one arc, whose plane is unknown. Draw it as two arcs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A&amp;dd files...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ASSUMED: nothing states what the points are worth, so a default stands for it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ASSUMED: somebody stated what its points are worth; nothing in a layer tells it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>About its line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Accept this placement</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a level mark to the control, or take the heights as relative.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a mark far out, and stand on it in two walks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a pass station on such legs, or accept a larger uncertainty.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a passing point nearer the middle of the curve; else it is drawn straight.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a passing point with leg `curve`; else it is drawn straight.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add points, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add the piece that is missing to the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add the row, or correct the name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Adjust walks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Adjusted and placed: x {x} east, y {y} north in the survey plane.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>After</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Against</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All heights differ by {shift:+.3f} m, more than both account for. Either the ground was raised or lowered all over, or one of the two hangs on another bench mark: this comparison cannot tell which. The row has the volume of both: {without:.2f} m3 without the step, {whole:.2f} m3 with it. Check the level marks and the datums.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All heights differ by {shift:+.3f} m, more than both account for. This is taken off, and is no change of the ground. Check the level marks and the datums.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All points lie on one line, so there is no surface between them. Add points beside it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Along the outer edge; 0 for none. Forms are as much higher.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Along the slope.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Along the wall&apos;s centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Also write a copy without curves</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An arc needs two ends apart and points between them, apart from both.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An edge at {x:.3f}, {y:.3f} has no room for {by:.3f} m past the outline. Give a smaller extra, or draw the outline simpler there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An edge goes once round. Draw it as two arcs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An edge of the face has no length. Draw it from end to end.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An edge of the outline goes once round. Draw it as two arcs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An edge of the ramp is closed: it ends where it starts, and rises by nothing. Draw both from end to end of the ramp, or a line along its middle alone.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An entry for each file, with semicolons between: points.csv: EPSG:25831; yard.csv: none. None: its coordinates are in a plane of their own. Other files keep theirs, and the files are not changed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An entry for each file, with semicolons between: yard.csv: us-ft; tapes.csv: ft. The units are m, ft, us-ft, in, cm, mm. Other files keep theirs, and the files are not changed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An interval of {interval:g} m along a baseline of {length:.3f} m cannot be stationed. Give one that makes no more than {most} stations.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An open stop keeps the heights out: see the findings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An order of {net} with waste {waste}, step {step} and minimum {minimum} has no meaning. Give each as 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline crosses itself or another of its rings near {east:.3f}, {north:.3f} from the middle of the surface, metres. Draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline encloses no ground. Draw it round what is to be measured.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline has a corner without a place. Draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline is widened with the library {library}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline of {corners} corners has too many edges side by side to be filled. Draw it simpler, or split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline that is to reach {by} m past its edge is closed, and that is 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An outline that lies farther off any plane is refused.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An upright face of the breakline {line} at {place}, {low:.3f} to {high:.3f} m, is built leaning: its foot stands {off:.4f} m off its top in plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An upright face of the breakline {line} was drawn {shift:.3f} m off the edge at {place} that it stands on; it is put there, {low:.3f} to {high:.3f} m, and built leaning: its foot stands {off:.4f} m off its top in plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer area (an outline was walked: it is closed and measured) or length (a way).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer its findings in the decisions file and run the survey again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer join (one edge for both: {one} changes by {change:+.3f} m, {other} by {other_change:+.3f} m2) or leave (two edges, as walked).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer join (one edge for both: {one} changes by {change:+.3f} m2, {other} by {other_change:+.3f} m) or leave (two edges, as walked).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer join (one edge for both: {one} changes by {change:+.3f} m2, {other} by {other_change:+.3f} m2) or leave (two edges, as walked).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer leave to one of the asks GE-02 that it stands in, or correct the log there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer one (one shape walked in two goes), two (two shapes) or replace (the same ground again: the older go stays in the file without figures), or name the part in the log.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer reverse (stations {b} to {c} in reverse order give {reversed_area:.3f} m2) or split (two parts there, of {part_1:.3f} and {part_2:.3f} m2), or correct the log.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer reverse (stations {b} to {c} in reverse order give {reversed_area:.3f} m2), split (two parts there, of {part_1:.3f} and {part_2:.3f} m2) or drop (without station {dropped} it has {dropped_area:.3f} m2), or correct the log.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answer split (two parts there, of {part_1:.3f} and {part_2:.3f} m2), or correct the log.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Answers to findings of an earlier run.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Any layer of a survey, or its GeoPackage; or a surface: a layer of triangles with heights, a mesh, or a file of one. Both of one kind.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Are these decimal commas? Write points, or separate the columns with semicolons. Else quote a field that holds a comma; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area = sum over the edges of (x1·y2 - x2·y1) / 2; x, y in metres from the first corner, true to the ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area in plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area on the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area on the slope = area in plan · √(1 + fall²), on the plane nearest to its heights: {area} · {factor}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area on the slope = area in plan · √(1 + fall²), on the plane nearest to the heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Areas and lengths whose crossings are told by name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Areas by slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Areas by slope: none are told, for they need a layer of areas and a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Areas or lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Areas with falls</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As high as the wall, behind its back.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As laid; 0 for none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As the maker states it: 0.5 %, or 0.02 m + 0.3 %. Without this and without a file a default is assumed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As the names in its first line say.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As you chose before.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As-walked edges to straights and arcs: how far a row may lie off, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>At 1.5 m above the ground; of several stems their mean. It may come from a field or an expression; of a survey&apos;s spots 0 takes the stem noted on site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>At the foot of a rectangle or a trapezoid, at the top of the others. It may come from a field; of a survey&apos;s lengths 0 takes the width noted on site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>B&amp;uild from the survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>BANDS: &quot;{word}&quot; is no slope. Write bounds with commas between, as 5 %, as 1:4 or as 0.25.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Back to the defaults</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bands of slope need one to {most} bounds above 0. Give them as percent, as ratios, or as 1:n.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Baseline</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Batter of a trapezoid&apos;s sides, metres out per metre up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bays of {limit} m are none. Give a factor above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bays of {limit} m are too many to lay out. Give a larger factor.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bearing of the fall</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bedding below the invert, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Beds or rows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Begin and end a walk on marks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Below the ground. It may come from a field; of a survey&apos;s lengths 0 takes the depth noted on site. Without any it follows from inverts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Both edges end {gap:.3f} m or less from where they start, and they start about {far:.1f} m from each other along them. End each with its own first point, or start both at one place.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Both ways. 0.30 m is common practice, no source.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Both {one} and {two} are control files. Keep one, with all marks in it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boundary</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bounds between bands of slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Breaklines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bring all walks into agreement at the marks they share, and write them in the survey plane: metres, true to the ground.

misclosure_m is what is left when a walk returns to a mark, before it is spread, and misclosure_m_sigma what the instrument should leave; far more than that is a blunder and is not spread. The error ellipses (one sigma) grow with the distance from the marks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bringing the walks together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Build surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Building the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bulking: loose per bank</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bulking: loose per laid</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>C</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>C&amp;RS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>CRS of single files, in place of their own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>CRS of the survey (the control&apos;s unless chosen)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cancelled; nothing was written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Chainage table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Chance of a false change in the whole comparison, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change the sign of y in this walk: its axes were taken left-handed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changes told</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changes told: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check height {mark}, {height:.3f} m, lies {gap:+.3f} m from what the walks and the levels give; {allowed:.3f} m (95 %) would be expected.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check point {mark} lies {gap:.3f} m from where the map pairs put it; {allowed:.3f} m (95 %) would be expected.{hint}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check that the points picked still exist on the ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check the layer&apos;s CRS (was it set where it should have been reprojected?), or move the point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check the level and its datum, or leave it out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check the mark&apos;s name in the control and in the logs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check the names of its ends: marks, or walk:station.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check the stated instrument and the holds on marks; walk again what is doubtful.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check this height and the level marks: datum, unit, point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checking</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checking {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks ({n})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks that cannot tell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks that fail</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks that pass</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks, the worst first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks: {passed} pass, {failed} fail, {open} cannot tell.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose a check: it flashes on the map. Double click, or Enter, zooms to it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose a mark and pick its place on the picture. Two pairs far apart place the survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose another projected CRS where you work in one. Check that this is where the site lies.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose another surface, or a level, to hold it against.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose northing and easting, or latitude and longitude, not some of both.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the column of the northing and that of the easting.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the folder of the logs, or drop it here, or single files:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose them below.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose which walk to believe: older ({first}), newer ({second}), or both where they are two things. The other stays in the file without figures.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Chorded copy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Classes of &amp;depth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clear what stops the hole.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Click along the line on the map. Enter or the right button ends it, Backspace takes a point back, Escape gives up.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Click the first place, then the second. Backspace takes one back, Escape gives up.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Click the first station. A click near a mark stands on it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Click two places on the map: what lies between them on the surface is told here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Click where the mark is. Right click or Enter ends, Backspace takes it back.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clockwise from grid north, 90 to the east; the crossfall is across it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clockwise from grid north; the crossfall over a surface is across it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Close it: its last point is its first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Columns of point lists, in place of their header</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Columns of these layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Common practice, no source; change it where you know better.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Compare surveys</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Compare the two heights of a mark in both files, and correct the wrong one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Comparison</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Complete the element; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Complete the line or take it out; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Complete the line, or quote a field that holds the separator; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Complete the list; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Concrete of slabs inside the outlines of any layer, true to the ground, with its uncertainty: the plan area times an even thickness, or the plane through the corners&apos; heights down to a level or to a surface, over its triangles; with an edge thickened all round, or along the sides that are given, on the path of its centroid. Arcs are exact, holes are out. So is a course under paving, which may reach past its edge.

Every row comes back with its own columns and, added: concrete_m3 and what is ordered of it, its plan area, thinnest, mean and thickest, forms along all edges by height (to 150 mm, to 300 mm, above) and straight or curved, joints and bays, and whole mesh sheets with their laps.

Form classes, bay limits and laps are common practice without a source: set your own. Concrete mixes, joints and reinforcement follow local codes and a licensed practitioner&apos;s judgement. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Contours</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Contours every {interval:g} m are more than can be drawn on heights from {low:.2f} to {high:.2f} m. Give a larger interval.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Contours of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Control</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Control point {mark} is not used: no walk stands on a mark of this name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Control point {mark} is not used: no walk stands on a mark of this name. Is it {like}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct `hole_in`, or the stations of the hole or of the area there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct `offset` or `offset_side`, or accept the edge as drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct `offset` or `offset_side`, or walk the true edge there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct its list of points; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct its points or its radius; it is not drawn, the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct its points, or draw a line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct its points, rot or {part}; it is not drawn, the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the heights, or end one of the two lines before it meets the other; the foot and the top of an upright face are drawn a little apart. A wall with no ground at its top on either side is no ground: leave it out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the line or write the file anew; what stood before was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the line; until then the survey goes on as if the key were not given.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the log: put stations {b} to {c} in reverse order, leave one of them out, or split there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the mark&apos;s name in the log if it is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the name or add the point; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the number or the units; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the number, or exchange the columns; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the number; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the piece in the file, or write it as lines and arcs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the stations of the circle, its `offset`, or the sides there; walk a circle that stands by itself as a feature of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the stations of the two there, or `hole_in` if one is a hole of the other; give them another `option`, `surface` or `phase` if they are no one plan; answer leave if both are to count it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the stations of the two there. Is it one hole walked twice, leave one out; does one lie in the other, name that one in its `hole_in`.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the stations, or give it another geometry (`length`).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Correct the time, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from here on are then a walk of their own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Count planting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Counted planting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Counts courses and steps of the footing; 0 for none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cross section</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Crossfalls along lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Crossfalls along lines: none are told, for they need a layer of lines and a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut C</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut and fill of a surface to a level, to a plane through three points or to another surface, over all of it or over areas with voids, a row each. Exact over the triangles of both, split where the depth is zero: cut and fill are never netted, net_m3 stands beside them.

Only ground that both surfaces cover is measured; left_out_m2 is what of the area they do not, and finding says so. Strip is taken off everywhere first and is never fill. From bank to loose, compacted, tonnes and loads each factor counts once, and working shows it; loads are whole, by volume or by mass, whichever is more. Depths by class has the ground by its depth (cut positive), Zero line what lies between cut and fill. Every _sigma is one standard deviation, from the points&apos; heights and the ground between them; outlines, strip (unless told) and planes are taken as exact.

Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut of all rows, cubic metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut sections</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>DR-01: Cannot tell.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>DR-01: Cannot tell: the 95 % interval lies on both sides. Level it better.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>DR-01: The fall is outside the limit beyond what it is worth. Change levels, or accept it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>DR-01: Water stands here. Raise the ground, add a drain, or accept it as a pond.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Decisions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Degrees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete point {corner} ({without:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete that point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Density in the bank, tonnes per cubic metre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth at the end of the line, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth of a thickened edge below the slab, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth of mulch, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth of the footing, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depths by class</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depths from {least:.3f} m to {most:.3f} m in steps of {step} m are {count:.0f} classes. Give a larger step.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depths of {name} to {target}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Description</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Design surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Direction along the area, degrees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Direction along the areas, degrees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Distance in the survey plane from the mark, as placed, to its map point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dotted: 95 % ellipses, {times} times.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Double click, or Enter, opens it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Double click, or Enter, shows it on the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Double click, or Enter: show the station on the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw a line across the site: the levels of every edge and station on it are plotted here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw it again, or repair the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw it inside, or take what lies beyond it out of the outer ring.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw it, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw on the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw walk</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Drawn. Click the first station of the next line, or press Forecast.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>E&amp;xchange northing and easting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Each length between two sections needs one middle section with an area of 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Each part of each row is a section.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Easting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge of an area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge {edge} turns with a radius of {radius:.3f} m, and the trench reaches {reach:.3f} m to its inner side. Give a smaller width, or draw the line along the other side.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge {edge}, {length:.3f} m long, has no room for the trench, which reaches {reach:.3f} m to its inner side: its corners are too tight. Give a smaller width, or draw the line simpler there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge {edge}, {length:.3f} m long, has no room for {by:.3f} m to its inner side: its radius or its corners are too tight. Give a smaller thickness, or draw the line along the other side.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge, apart from that: ±{reach} (95 %), for an edge that is worth ±{worth} over {length} in all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge: nothing, the edge is taken to lie where it was walked.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edges</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edges of neighbours that may be one: farthest apart, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edges within this, and within what their stations can be trusted to, are asked about (GE-02); they are joined only where you answer join.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Elevation</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ellipses are at their size.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ellipses are drawn {times} times their size.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Empty: all are. No, false, 0 and nothing say no.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Empty: each line is a feature.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Empty: each line is a walk of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Empty: none is, and nothing is told of heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Empty: the field mark, or name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>End areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>End areas lie along a baseline. Give one, or leave them out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>End areas need two surfaces. Choose the ground first, and then what it is held against.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>End the walk on a mark.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Enter how well the point could be picked: half a pixel and the picture&apos;s stated accuracy together.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Error budget before the walk: draw the stations you mean to stand on, say which are marks and what the instrument is worth, and see what the survey will give.

Each line is a walk through its vertices in order; lines of one name in the field of walks are one walk, in the order of the rows. A line of one part that closes is an area, any other a length; a line without a name in the field of features is only the way. Vertices near a mark stand on it. Where a mark is walked over twice, the walk is closed there.

Stations have the error ellipse where they will lie on the map: one sigma, and 95 %; worst is 1 at the far corner. Features are the lines with area, perimeter or length to expect. Each _share_ratio tells what part of the variance comes from the instrument&apos;s scale, its heading, the noise of legs and stands, the tapes, the map points, and the shift they share (which moves the site, not its size). What would help ranks what could be done: stand on a station again, pair it with the map, tape a length. Findings are what the survey&apos;s own checks say of the plan.

It is the survey of this walk without any error, so the figures are the ones that Survey walks would state. Mistakes (a wrong mark, a wrong unit) are in no forecast.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Errs by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Even all over. It may come from a field; of a survey&apos;s areas 0 takes the depth noted on site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Every residual that can be tested</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Exchange the two (of 1:n, the larger n is the flatter); the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Exchange {one} and {other} in this walk, or rename them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Exchange {one} and {other} in this walk, or rename them. If the names are right, accept them: the heights and levels are then judged one by one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Existing surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Expected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Expected 95 % ellipses, at their size</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Expected 95 % ellipses, drawn {times} times their size</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Expected ±95 %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Expected ±95 %
(assumed)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Expected, before the walk; 95 % figures.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Extra past the outer edge, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>F</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>F fails, ? cannot tell, – could not be measured, P passes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fail and cannot tell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fall</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fall = √({p}² + {q}²) = {fall}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Far corner
station {station} of walk {walk}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Far corner: station {station} of walk {walk}, ±{major:.3f} m (95 %); {shares}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Feature</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Features</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fewer than two marks are paired: the corners hold among the marks, not on the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field of directions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field of heights, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field of sizes along the line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field of stem diameters as noted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field that names the feature</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field that names the mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field that names the walk</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field that says yes where a mark is paired with the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Field that says yes where the height of a mark is known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Figures</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>File</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Files of the job</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fill</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fill F</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fill in what the instrument is worth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fill of all rows, cubic metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fill the field in; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Find low points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finding low points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Findings on the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Findings: stop {stops}, ask {asks}, answered {answered}, note {notes}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finished levels are walked ({feature} in walk {walk} is the first), but no mark has a known height.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fit arcs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fit the scale to the control</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fitted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fitting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Folder of the logs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>For loads by mass.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>For loads by volume.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>For tonnes and loads by mass.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Forecasting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Formula with its numbers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From plant to plant; 0 for no plants. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From section to section; there is one at the end of the baseline too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From the edge inward.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From the first place to the second, on {name}; ± is 95 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From the first place to the second; negative where it falls.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From the level.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From walk logs to one placed, measured survey: a GeoPackage with true curves, and a project beside it that shows it.

Areas are in plan, holes out (area_m2), and along the slope (sloped_area_m2); lengths in plan (length_m) and along the slope (slope_length_m); gradient_ratio is rise by run, positive up along the walk; fall_ratio and fall_bearing_deg are those of the plane nearest to the area&apos;s heights. All are true measures on the ground, whatever the CRS. Every _sigma is one standard deviation; labels show the 95 % figure, 1.96 times as wide.

What looks wrong is a finding. A stop keeps the figures it touches out until it is answered in the decisions file; an ask leaves them in as recorded. Read the table of findings before you use a figure.

Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>GPX</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>GeoPackage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give a number above zero; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give a number or empty the field; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give both, or empty both for a level mark; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give degrees from -90 to 90 and from -180 to 180; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give each point an id of its own; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give it another name, or confirm with: as recorded. What refers to {name} means the first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give it its lines and arcs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give it points and faces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give it three corners or more, or another geometry (`length`, `spot`).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give it two stations or more, or the geometry `spot`.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give map points of two marks or more in the control file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give north, east and height in finite numbers; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give one of the two walks another name, or confirm with: as recorded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give one of them its coordinates; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give one of them, or both; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the EPSG code in CoordinateSystem, or place the survey with control.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the curve&apos;s last station the leg `curve-end`, or accept it as drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the height of the ground above the ellipsoid where that matters.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the height of the ground above the ellipsoid, or the separation, where that matters.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the surface a name, such as ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the whole file; what stood before was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give them in {target} where that matters.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give two of its stations the names of marks that the others stand on, or survey it by itself.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give two or three numbers with blanks between them; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give zero or more, or empty the field; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give {columns}, or z for a level mark; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Gradient</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Gradient = rise by length in plan, positive up along the walk.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ground Tally</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ground inside them is left out: buildings, ponds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ground outside it is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ground outside the survey&apos;s areas of that surface is left out; without it, ground between separate features is bridged.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Guide</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Half to each side</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height from which a licensed designer is asked for, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height of a course, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height of a wall without a top line, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height of the ground above the ellipsoid, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Height of the ground at the station, the pole taken off, after the adjustment and the shift to the levels: {z}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Heights</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Held against</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Hole {n}:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How far all its heights together may lie off the level, plane or surface it is measured to.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How far the picture may lie off as a whole: it moves the site, not its size.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How it was come by: {method}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How much wider it is under the slab.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How steep areas and lines are, and where they fall to, whatever the layer&apos;s CRS: as ratio, percent, degrees and 1 in n, each with its one-sigma.

Of an area it is the least-squares plane through its own points, or over all of its ground where a surface is given; of a line the gradient from its start to its end. A direction gives the fall along a way and the crossfall, positive to the right; of a line over a surface the crossfall is that of the surface across its width, and without one that of the triangles under it, its mean and the greatest. flattest and steepest are those of its sides, of its triangles, or of the line&apos;s edges. What all heights have in common is in no gradient.

Areas by slope tells how much of each area over a surface is how steep, in bands of slope: every m2 is in one. Crossfalls along lines has them by chainage.

Gradients of ramps, steps and paths follow local codes and a licensed practitioner&apos;s judgement. Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>If it is a point list, put its column names in the first line; if it is a log, see its header. Else take it away.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>If it is none, give the two another `surface` or `option`; if it is, name the area in `hole_in`.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>In metres, several stems with + between, such as 0.12+0.15; it goes before the numbers above.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>In plan. Lines that pass a point within this go through it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>In plan; the two places count as exact.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>In the datum of the corners&apos; heights, in metres. Where it is given, the thickness varies, and the even one is not used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>In the datum of the ground&apos;s heights. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Inches of rise to a foot of run.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Inches per foot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Install it (apt install python3-{library}) and start QGIS again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Install it (the package python3-{library} in OSGeo4W Setup) and start QGIS again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Install it for the Python that QGIS runs in and start QGIS again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Install {library} and run again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Instrument ASSUMED: nobody said what it is worth, so these figures are a guess.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Instrument: from the accuracy stated.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Instrument: from the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Instruments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Interval along the baseline, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Interval of contours, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It crosses weak triangles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It does not say where it lies, so it is not used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It falls to the bearing {bearing}, clockwise from grid north (the grid is turned by {turn}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It is in strip, cut and fill.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It is the local code&apos;s to say; 0 for none. RW-01 asks where it may be passed by more than 5 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It is the worst of {n}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It may come from a field; of a survey&apos;s lengths 0 takes the height noted on site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It may come from a field; of a survey&apos;s rows 0 takes the width noted on site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It needs {n} stations at least. {hint}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It reaches farther than a kilometre from its middle, so it is measured along geodesics.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It should close within {gap:.3f} m (one sigma).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It takes: {answers}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its &amp;units</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its areas and lengths are told apart by their parts and risers, with the survey&apos;s own sigma.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its ellipse, one sigma: {major} along the bearing {bearing}, {minor} across. 2.448 of the long one are the 95 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its layer does not say what a height is worth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its name in the file of instruments; where that holds one only, it is taken.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its spots, marks, stations on the way and walked edges of the surface named below are taken too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Join the two, or move their common edge.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keep one of the two lines; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Labels show lengths in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Laid under the survey. The one picture in the logs&apos; folder is taken where none is named.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>LandXML</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lap of mesh sheets, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Largest distance between a chord and its arc, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Largest distance of a vertex from its straight or arc, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Largest distance of an outline&apos;s point from its plane, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Largest radius, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Largest rise of a curve over one straight unit, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Latitude</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Layers of triangles with heights, or meshes. Depths are of the first below it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Left of a line, outside an area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Left of its line, a top edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Left of its line, the front</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Leg length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Legs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length = sum of the edges in plan, true to the ground; an arc is r·θ, θ in radians.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length along the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length along the slope = sum over the edges of √(length in plan² + rise²).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length in plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length of a mesh sheet, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length of a roll of turf, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length of a straight unit, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lengths between marks, to check the walks against.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lengths of the survey that no limit of the table is of: {count}. They have no row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Level</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Level of a flat underside, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Level of the invert at the line&apos;s end, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Level of the invert at the line&apos;s start, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Levels</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lies off</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limit: {source} ({seen}). {note}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limits in {name}: {n}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limits that hold here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines along the outer edge, or along a part of it, such as rows of a survey&apos;s sides; without it all round.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines and outlines with heights: kerbs, tops and feet of banks. Arcs are taken in chords of 2 mm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines of one name are parts of one feature.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines of one walk are walked one after the other.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines of trenches and swales</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines of walls</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines or areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines to cut along</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines with heights: each nosing, and the foot of each riser.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines with heights: parts foot and top of one feature.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines with heights: the middle, or parts left and right of one feature.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2), or delete point {corner} ({without:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2), or split it there ({one:.3f} and {two:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2), split it there ({one:.3f} and {two:.3f} m2), or delete point {corner} ({without:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List the points of that loop in reverse order, or split the outline.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Logs (files, or the folder they lie in)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Logs in a CRS are measured on the ground at a height of {height:.1f} m (the mean of their own heights, or 0 where they have none): each 100 m above makes true lengths 1.6e-5 longer.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Longest bay, in thicknesses</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Longest side of a triangle of the rim, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Longitude</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look at the pairs and at this point on the picture: one of them is a wrong point, or two are exchanged.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look at these legs; the misclosure is spread as it stands unless the walk is mended.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look first at the lines named; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look first at those that are named, or confirm with: as recorded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look first at those that are told.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look whether triangles are missing, hidden or doubled.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look which way round it lies, or pick a third mark as a check.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Looked for beside the logs where none is named.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Looking along the baseline.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Looking at the files...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Made of</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Making: {title}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Map point, one sigma</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mark paired with the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it (the same could be said of {also}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mark {mark} is stood on once, in walk {walk}, and no other file knows it. Is it {like}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mark {mark} is there already.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Marks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Marks (points)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Marks and the map points they belong to.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure a layer of the right kind, or redraw it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure gradients</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure it again with an instrument, or use it for a budget figure only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure slabs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure strips</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure them with an instrument where that matters.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure trenches and swales</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure volumes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure walls</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured gradients</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured slabs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured strips</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured trenches and swales</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured walls</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured: {method}; its uncertainty is from: {sigma_from}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measuring</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Merge points within, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mesh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mesh file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Misclosure in height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Misclosure in plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Misclosures</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>More plants for losses, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>More stands on shared marks show smaller blunders.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>More than one is given to measure to: {given}. Choose one of them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move it inside, or make it a part of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move one of them, or join them: a hole lies inside its outer ring, and parts lie apart.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move that point to where it belongs, or delete it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move the middle point between the ends, or draw a straight.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Moved out by {by:.3f} m the outline runs into itself. Give a smaller extra, or split the outline.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Moved out by {by:.3f} m two parts of the outline run into each other. Give a smaller extra, or join the parts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>N</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>NMEA 0183</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name of the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name the area that it is a hole of in `hole_in`. Where two areas cover the same ground by mistake, correct their stations; where on purpose, give them another `surface` or `option`.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name the columns rightly, or answer for {place} with exchange or as recorded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name the surface&apos;s CRS in its file, or give the survey control. Read walks gives the surface by itself.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name the survey that is to be made.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name three points of the surface by their ids; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name two different marks; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Neither a log nor a table that lies beside logs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Net</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No accuracy is stated. Write it like 0.5 % or 0.02 m + 0.3 %, or choose assumed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No boundary is given: ground between separate features is bridged. Choose the survey&apos;s areas as boundary (Only inside the survey&apos;s areas), or draw one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No control</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No edge of the steps rises more than it runs, so that there is no riser. Walk a station at the foot of each riser and one on its nosing.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No figure: it is kept out by {codes} until that is answered.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No figure: there is nothing here to measure it from.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No figure: {finding}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No file of instruments is named. Choose one, or choose assumed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No forecast yet: draw or choose a plan, then press Forecast.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No forecast: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No ground is left inside the boundary and outside the voids. Check that they lie where the levels are, and that all are in the CRS they say.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No ground of it lies on both surfaces. Move it, or extend the surfaces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No ground of it lies on the surface. Move it, or extend the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No ground of the outline lies on the surface. Move it, or extend the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No ground of the surface lies under the way. Move it, or extend the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No instruments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No job yet: start one from the folder of its logs, or open a survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No level and no breakline is given. Choose a layer of points with heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No limit of the table is of it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No limit&apos;s name begins with &quot;{word}&quot;. The table has: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No log among them: a job needs walk logs, point lists, GPX, NMEA 0183 or LandXML.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No logs are named. Give log files, or the folder they lie in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No output is chosen. Choose one or more of: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No picture</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No picture in the project: add one (a file, tiles or WMS), or give surveyed points as control.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No point can be read so.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No row of the logs can be read. IN-01, the first of {count}: {message} {remedy}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No row of the logs can be read. IN-01, the first of {count}: {message} {remedy} As a row of the decisions file: IN-01,{place},&quot;{answer}&quot;; or choose the columns before the run.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No station is within {within:g} m of mark {mark}: the nearest is {distance:.2f} m away. Draw a walk over it, allow a larger distance, or leave the mark out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No station of the plan stands on mark {mark}. Draw a walk over it, or leave it out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No surface is given to cut. Choose one or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No surface is given. Choose a layer of triangles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No surface yet: build one from the survey, or add a layer of triangles or a mesh to the project.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No surface yet: build one, or add one to the project.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No tapes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No thickened side runs along the outer edge: nothing is thickened. Draw its sides along it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No walk is left to adjust. {code} at {place} ({file}, line {line}): {message} {remedy} Or answer it with a row in the decisions file: {code},{place},{answer}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No walk is left to adjust: none has a station that could be read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed; let the receiver write RMC or ZDA to have the date.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed; let the receiver write checksums.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed; look at the track for gaps.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed; take the GGA lines out to use RMC, without heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed; the accuracy is stated with the figure.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None needed; write them with Z if that is right.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>None where it changes along the way. Else note the same at every station, or at one alone.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Northing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Northings of metric grids have seven digits, eastings six. Hold the sketch against the site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not checked yet: tick the limits that hold here, then press Check.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not read, for these are no walk logs and no tables beside them: {files}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not taken: what stands above the ground leans away from its place in a picture. Pick its foot.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Note the same at every station or at one alone, or give the size where it is used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing checks walk {walk} after station {station}: errors grow to {far:.2f} m (95 %) at its last station.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing chosen yet.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing fails, and nothing is left at cannot tell.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing has to be done where the face stands on that edge. Else correct the heights where the two lines cross.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing has to be done; volumes over it are off by at most half that run times its height, per metre of its length. Draw foot and top apart where the face leans more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing in the marks of walk {walk} excludes: {what}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing in the numbers tells northing from easting; northing first is usual. Hold the sketch against the site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is asked for: give a spacing, a depth of mulch, seed, or a roll.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is given to check: choose a survey or a layer.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is given to measure to: choose a surface, a level, or a plane.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is left to plant: the row is shorter than its set-back at both ends. Give a smaller one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is left to plant: the set-back takes all of the bed. Give a smaller one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is planned. Draw a line for each walk, through its stations in order.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing of {file} can be read. IN-01, the first of {count}: {message} {remedy}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing of {file} can be read. {message} {remedy}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing shows which columns give a place: choose them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing surveyed yet: run the job.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing that one more mark, stand or tape could do helps by a hundredth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing ties the heights of {walks} to those of the others: they are as {file} gives them. Slopes and falls within each are right, heights of one against another hang on the same datum in both.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing ties the heights of {walks} to those of the others: those of walks that count from where they began are left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing with a working lies there. Click on an edge, inside an area, or on a station.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing, if that is meant so.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing, if that side is straight; a walk back to the first corner would check the outline.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Number of stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of a bench mark or a datum: a step in height within this is nothing to be told.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of a bench mark or a datum: it is in the levels alone.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of a bench mark or a datum: it is in the levels, and cancels in rises and depths.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of a course that is wider than its area; arcs keep their centre, corners are mitred, holes stay.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of a row at both its ends. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of a survey&apos;s lengths the levels noted on site count where it is empty.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of an arc, its chord in that sum, and beside it the segment (θ - sin θ)·r² / 2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of depths by class; they count from 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of height, from one contour to the next; they count from 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of kerbs, blocks or capping along the front; 0 for none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of lines of layers. It is an assumption; a survey&apos;s own edges bring theirs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of points of layers, and of surfaces that do not say it; the rows of a survey bring their own. It is an assumption: a level and a staff on hard ground give 3 mm, as for what is levelled to be checked. A layer that was drawn from a picture or a plan is worth less: 0.1 m is what walls and trenches take for it, and with that most checks cannot tell.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of points of layers.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of ramps, landings and paths.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of that diameter. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the combined one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the layers only some have a place on the map: {name} is in {crs}. Choose layers that are all placed, or all in one local grid.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the rows&apos; own points, and of surfaces that do not say it. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the rows&apos; own points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the smallest {n} none is drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the whole comparison, all its tests together.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of widths, heights and thicknesses (a tape in ordinary care errs by some millimetres: common practice).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of {mulch} m of mulch nothing would be delivered at a bulking of 0. Give the loose volume by the laid one: 1 where it does not settle.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Off, the measured size is kept and the scale only shown as a check.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One edge of the face has heights and the other has none. Give both.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One line, arcs too; sections are cut square to it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One of the two edges is closed and the other is open. Draw both from end to end, or end each with its own first point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One sigma of {sigma} = {by} times what each point is worth on each axis, ±{point}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a corner that was digitised, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a corner, each axis and height, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a corner, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a height on a breakline, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a height where a surface does not say it, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a height, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a known height, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a level, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a map point, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a map point, each axis: of the next mark, and of marks that have none of their own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a point in plan, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a point, each axis and height, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a point, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a stem&apos;s diameter, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a tree or a corner of works, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of a vertex, each axis, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of how far the picture may lie off as a whole: it moves the site, not its size.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of one surface&apos;s heights as a whole against the other&apos;s, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of taped sizes, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of the ground between the points, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of the shift that all map points share, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of the strip&apos;s depth, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of the surface&apos;s height as a whole, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of what all heights share, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma of where the edge is taken to lie, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One-sigma, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only inside the survey&apos;s areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only limits whose name begins with</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only so do the points lie where {crs} is used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only {tested} points stand inside the surface and on no line; {fewest} are needed to say how far the ground lies off the triangles between the points. That part is in no sigma.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open a survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Other limits are chosen now than these checks were made with.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Out of date.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outline {n}:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outlines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outlines and lines of any layer as the fewest straights and tangent arcs of which no vertex lies off by more than the tolerance. Corners and sparse vertices stay where they are, and so do true curves. Nothing is invented: what no straight or arc fits, within what its vertices are worth, stays as recorded.

Every row comes back, with true curves where any were found, and how many straights and arcs it has, the RMS and the largest distance, and why it was refused if it was. Sides has a row for each straight and arc: length, radius, centre, sweep, chord, rise over the chord, RMS, and their one-sigma, all true to the ground. The schedule has a row for each radius: alike are radii that differ by no more than their joint 95 %, or that round to the same.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outlines of areas cross each other, and how much ground they both count was not looked at: the library {library} is not installed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outlines of ponds need the library {library}, which is not there. Install it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outlines of slabs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outlines or lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Over a surface the crossfall is taken across it, half to either side; 0: that of the triangles under the line. It may come from a field; where it is 0, a field width_m counts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Overlaps with works</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-02: {message} {remedy}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: from {source} to {target} only a rough way is known here (it can be 100 m off). Give the control in {target}, or install the grid of: {missing}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: from {source} to {target} only a rough way is known here (it can be 100 m off). Give the control in {target}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: the CRS {crs} of {file} {what}. Choose a projected CRS for the map; sizes are from the survey plane.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: the control points cannot be brought from {source} to {target}: they lie outside what these can hold. Check the CRS and the column order.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: the site lies at {lon:.3f}, {lat:.3f} (longitude, latitude), out of the area of {crs} ({area}). Check the CRS, the unit and the column order of the control.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: there is no way from {source} to {target}. Choose another CRS for the control or the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PL-04: {file} does not say in which CRS its points are. Add a line such as `# crs: EPSG:25831`.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pair a third ground point as a check, well off the middle of the others, or look at the preview over the picture and confirm it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pair station {station} of walk {walk} with its map point (one sigma {sd:g} m): {gains}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paired, yes or no</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Part field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Part of the cut that is fit for fill</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pattern</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Perimeter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Phone&apos;s figures: largest uncertainty that may be priced, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Picked to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Picture</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Picture the control was picked from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pipe wall and bedding.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place on the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place the adjusted walks on the map by the marks whose map points are known.

Two pairs give position and turn; the measured size is kept and the scale shown as a check. residual_m is how far a mark lies from its map point; a check point tests the fit without taking part in it. rotation_deg turns the survey plane to the grid, anticlockwise; grid_to_ground is ground length by grid length; common_m_sigma the shift that all picks of one picture share. Two marks close together serve badly far away: look at the error ellipses.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Placement</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Placement: nothing, for a size is the same wherever it is placed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Placing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plan a walk...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plan walk</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Planned mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Planned marks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Planned walk</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Planned walks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Planned walks (lines)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plants, turf, seed and mulch of the beds of any polygon layer, and plants of the rows of any line layer, true to the ground, with their uncertainty.

A bed&apos;s edge is set back first; each plant has the spacing squared in square rows, and 0.866 of it in staggered ones, which takes 15.5 % more plants. A row has a plant at its start and one at every spacing; a closed one as many as have room. Turf goes in strips along the longest side, over all of the bed; rolls are counted strip by strip. Seed goes by weight and mulch by depth over the bed that is set back.

Every row comes back with its own columns and these figures. Each factor is taken once, and method names it. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Point at the map, or open a table and choose Show the working for a row: the formula of its figure stands here, and the stations it rests on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Point {number} has no place: ({x}, {y}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Point {point} has no height, and the others have. Give it one (z), or choose a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Points lie too near each other for a triangulation. Merge points within a larger distance.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Points lie too near to one line for a triangulation. Merge points within a larger distance.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Points with heights (z), or with a field that holds them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ponds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ponds found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ponds found: {count}, {volume:.3f} m3 in all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Press Check.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Prices or rules, which a survey is not made from.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Profiles, edges or outlines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Project</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Protect trees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Protection circles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Purity times germination; the weight goes up accordingly.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Put a line with the names above it, or answer with the order of the columns; until then its points are not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Put a mark there, or pair the one that is there. Then forecast again; Undo takes it back.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Put it above the header, or keep the logs in files of their own; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>QGIS for macOS brings it: install QGIS again from its own installer and start it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>R&amp;esults</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>RS-01: Cannot tell.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>RS-01: Cannot tell: the 95 % interval lies on both sides. Measure it better.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>RS-01: It is outside the limit beyond what it is worth. Change it, or choose the limit that holds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>RW-01: The retained height may pass the limit. Have it designed; enter the name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>RW-01: The retained height reaches the designer&apos;s limit of {limit:g} m with a chance of {chance:.0f} %. Have it designed; enter the name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radii are to be rounded to {rounding} m. Give a length above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radius</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radius = length of the arc by what it turns through, in radians.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radius below which a form is curved, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radius, in stem diameters</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ramps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ramps and paths that were walked as one line take their crossfall from it. Areas are held to the fall of their own heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ramps, steps, paths, falls and walls held against an editable table of limits, a row a check: what was measured and its one-sigma, what is allowed, where that comes from, the outcome, and the chance that the true figure is allowed.

A check passes or fails only where the 95 % interval of the figure lies wholly on one side of the limit; else the outcome is cannot tell, and it stays open. Of several flights, risers or goings the row has the one that is likeliest to break the limit. Ramps are walked along the middle, or by parts left and right; over a surface those of one line have a crossfall too; steps with a station on each nosing and at the foot of each riser; walls by parts foot and top. A survey&apos;s areas and lengths are told apart by their parts and risers.

The limits shipped are examples with their source, some from memory: they are nobody&apos;s permission. Ramps, steps, walls and falls follow local codes and a licensed practitioner&apos;s judgement. Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reach of that, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Read walk logs, point lists, GPX, NMEA 0183 and LandXML, and check them: one point for each station, the surfaces, and the findings.

x_m, y_m and z_m are metres in each walk&apos;s own frame (the CRS&apos;s own units where the file is in one), the pole taken off the height; walks are brought together only by Adjust walks. A finding names file, line and station, says what stood there and what to do: a stop keeps figures out, an ask wants an answer, a note is told.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Read walks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading levels and lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading surfaces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading the logs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading the surfaces of the project</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Record the log anew, or confirm with: left out. The other sentences were read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rectangular: upright sides</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Redraw it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Redraw the arc or its neighbours so that they do not meet again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Renumber it, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from here on are then a walk of their own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Residual</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Residuals against their limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Residuals and 95 % ellipses, drawn {times:g} times their size</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Residuals at the marks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Right click or Enter ends, Backspace takes it back, Escape gives the line up.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Right of a line, inside an area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Right of its line, a top edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Right of its line, the front</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rise = height of the end less height of the start.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rise by run.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rise by run. Level lies within its 95 %: which way it falls is not sure.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rise by run; in brackets the 95 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rise, run and gradient between two places that are clicked</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Roofs and tree tops lean: pick at the foot.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Round the radii of the schedule to multiples of, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Round-bottomed: a part of a circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row} is to be a corner, but the line has rows 0 to {last}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row} names no walk in the column {column}. Give it the name of the walk it belongs to.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row} of the marks is no single point. Give each mark one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row} of the marks lies outside what the CRS of the lines can hold. Check both layers&apos; CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row} of the walked line has no place ({x}, {y}). Leave such rows out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row}: There is no geometry. Draw it, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row}: {count} point makes no line. Add points, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows measured: {measured}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows measured: {measured}; cut {cut:.3f} m3 and fill {fill:.3f} m3 in all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows measured: {measured}; {name} {total:.3f} in all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows refused</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows that cannot be read so: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows to fit are x and y, (n, 2); here they are {shape}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows without figures: {refused}. The column finding says why, and what to do.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Run</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Run over which the steepest gradient is looked for, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Run {n}:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>S&amp;trip first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>S&amp;urface under paths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save &amp;picture...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save it as UTF-8 if names look wrong.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save picture</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save the sheet with values in place of formulas; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Say which column is which.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Schedule of radii</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Seconds held still at a station</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Section</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Section of a drawn line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sections</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sections of different lines cannot be laid over each other. Cut all along one line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sections of one or more surfaces along any lines, or square to a baseline at an interval, with a break at every edge of a triangle: nothing is sampled.

The chainage table has a row for each break: chainage_m along the section, level, rise and gradient of the first surface, which is the ground, and of every other its level and its depth below the ground (cut is positive, fill negative). Where the ground crosses another surface, and where the line crosses a feature, there is a row too. Sections has each as a line with heights and its figures from end to end: rise, run, lengths, the gradient as ratio, percent, degrees, inches in a foot and 1 in n, and the areas of cut and of fill, never netted. End areas has the volumes between the sections of a baseline by the average end area (with the pyramid rule where an end is zero), by the prismoid and exactly over the triangles. Every _sigma is one standard deviation.

Not a boundary or legal survey. Have buried services located before breaking ground. Gradients of ramps and steps follow local codes and a licensed practitioner&apos;s judgement.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>See which of the two is right and leave the other out, or correct it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>See which of the two is right and leave the other out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Seed that is alive, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Seed, grams per square metre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Seen square to its own plane the outline cannot be measured (it crosses itself, or a hole lies astray). Draw it again there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Selected areas &amp;only</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set marks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set the tape&apos;s unit to {true}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set the walk&apos;s unit to {true}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set this mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set-back from the edge, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sets the scale of the survey plane: 64 m of height change a length by 0.001 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Several pictures know where they lie: tick the one that the control was picked from.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shallower ponds are not told; water runs on through them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shallowest pond listed, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shaping</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shift of all</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shorter flat runs are a part of the flight.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shortest run that is a landing, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show the plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show the working</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shrink: compacted per bank</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Side length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Side slopes of 1 in n: n; 0 is upright.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sides</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sides lie where the CRS of the outlines has no place. Check both layers&apos; CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sides with a thickened edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sketch of the points, north up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slope length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Smallest change of a height that matters, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Smallest change of a length or place that matters, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Some of them overlap: what two cover counts twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Spacing of plants, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Spill points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splay of a thickened edge, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Split it into one feature for each kind.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Split it there ({one:.3f} and {two:.3f} m2), or delete point {corner} ({without:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Split it there ({one:.3f} and {two:.3f} m2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Spots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Square rows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Square to the profile. It may come from a field; of a survey&apos;s profiles 0 takes the width noted on site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Staggered rows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stand on a mark with a height in both, or give the control a level of a mark in each.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stand on station {station} of walk {walk} once more at its end: {gains}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>State the CRS in a line such as `# crs: EPSG:25831` above the rows, or in the file&apos;s own way.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>State the unit that the log is truly in, tape a length between two marks, or confirm with: as recorded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>State them in a line &quot;# units: m&quot; above the header, or answer for {place} with m, ft or us-ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>State them in the element Units, or answer for {place} with m, ft or us-ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stated accuracy, without a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Station</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Station {n} on mark {mark}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Station {n}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Station {station} was held for {seconds:.1f} s only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stations</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stations behind it (x, y, z in the survey plane, metres):</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Steeper runs are a flight. Take it larger than limits of landings, so that bad ones are seen.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Steepest gradient of a landing, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stem diameter, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Step of the classes of depth, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Step that concrete is sold in, cubic metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Steps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sto&amp;p</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Strip beforehand, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Such a station is moved onto the mark; a mark that no station is near is refused.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Such as ground, stripped, formation or finished.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sum of the figure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Summary</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sur&amp;vey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface of the ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface of the section</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface under areas and ways</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface under the slab</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surfaces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surfaces of the project</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surfaces that were built here say what their points are worth; other files do not.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surfaces that were built here say what their points are worth; other layers do not.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surfaces, the ground first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Survey GeoPackage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Survey walks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surveying the plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surveying {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sweep</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sweep = what the arc turns through, positive to the left along the walk: θ = 2·asin(chord / 2r).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>TR-01: Works lie at the protected root area (rows {rows}), and what they take is not known, for some cannot be measured (rows {bad}). Mend their outlines; see the overlaps for why.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>TR-01: Works take {area:.2f} m2 of the protected root area (rows {rows}). Move them, dig by hand, or enter the arborist&apos;s name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Table of limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tables</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take back</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take five times what vertices are worth, or more: a smaller one leaves them as recorded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take it out, or cut a hole for it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take its outline, or measure it as a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take levels all over the ground, not only along its edges.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take levels there, or draw the boundary or a void so that it is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take levels there, or draw the boundary or a void so that they are left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take one of each out; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take out the points of one round.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take out the row that is not meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the hole out, or make it smaller.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the inner one out, or make it a part: ground inside a hole is not taken off twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the line out, or keep the logs in files of their own; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the rows out if they are old; check the places if they are not.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the stations of one round out of the log, or give the second round a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take their lines out if they are not of this site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Taken once, before the step of the order.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tape it again, or leave this tape out; until then use the figures for a budget only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tape one length of 10 m or more between two marks, or let the control&apos;s own lengths count as taped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tape one length of 10 m or more between two marks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tape the length {marks} (one sigma {sd:g} m): {gains}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tape {start} to {end}: taped {taped:.3f} m, walked {computed:.3f} m, difference {difference:+.3f} m where {allowed:.3f} m (95 %) would be expected.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tape {start} to {end}: {distance:.3f} m is {ratio:.4g} times the length walked; {true} would fit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Taped lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Text such as {&quot;depth_m&quot;: [[0, 0.4], [12.5, 0.55]]}: pairs of metres along the line and size, of width_m, depth_m and invert_m. Of a survey&apos;s lengths the field sizes_along counts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The CRS &quot;{crs}&quot; is not known. Give an authority code such as EPSG:25831, or its WKT.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The CRS {crs} has no plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The CRS {crs} is of no place on the earth. Choose a projected CRS for the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The accuracy is stated as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The arc through ({x:.3f}, {y:.3f}) is none: that point lies in line with the arc&apos;s ends, beyond them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The base {one} to {other} is {walked:.3f} m walked and {mapped:.3f} m on the map (ground length), {difference:+.3f} m apart.{hint}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bedding is {bedding} m thick. Give 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bottom stands {above:.3f} m above the ground at {at:.2f} m along the line. Correct the level or the depth there, or end the line before.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bounds of the bands do not rise. Give them from the flattest to the steepest.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The breaklines run so close to each other that their crossings do not come to an end. Merge points within a smaller distance than {within:g} m, or thin them out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The breaklines {line} and {other} meet at {place} with heights that differ by {off:.3f} m ({low:.3f} and {high:.3f}), more than three times what they are worth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The chance that it is allowed is {n} %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The clear width needs the library {library}, which is not there. Install it, or give the middle of the ramp alone.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The column fid has values twice or not at all; the rows are numbered anew.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The column {column} has no direction for this row. Give it degrees clockwise from grid north.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The control gives no accuracy (sd_xy) for {mark}; 0.05 m per axis is assumed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The corner at {x:.3f}, {y:.3f} is sharper than 11.5 degrees: moved out it would reach far past the outline. Cut the corner off.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The crossfall over the surface is taken across it; a row&apos;s own width_m counts first. 0: that of the triangles under the line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The decisions file answers {code} at {places}, but nothing asks that now.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The decisions file answers {code} at {place} twice: {answer} is overruled by {last} further down (line {line}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The decisions file answers {code} at {place} with {answer}, which it does not take.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The depth is within what it is worth: cannot tell whether water stands here. Level it better.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The depth that is given or noted goes before inverts; not used: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The developed area of faces that stand, lean or curve: what is clad, rendered, turfed or lined. True to the ground, whatever the layer&apos;s CRS.

A line with a width is a profile up a face, and its area is its length along the slope times the width. Two lines of one feature whose parts are called foot and top, or left and right, are the edges of a face of straight rulings between them; where both are closed, as of a planter, it does not count where either begins. A polygon with heights is an outline in a plane of its own, upright or leaning, holes out. Arcs are circles through their three points in space, in whichever plane these lie.

Every row comes back with its own columns and, added, face_m2, length_m (of the profile, the mean of two edges, an outline&apos;s outer edge), each with its one-sigma, off_plane_m, and why a row was refused. Of two edges the figures stand in the row of foot or left.

Retaining structures follow local codes and a licensed practitioner&apos;s judgement.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The edges of the ramp touch at {at:.2f} m along it. Draw each along its own side.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ends of the curve are one point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The face has no width above 0. Give its width, or draw its other edge.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The far corner first, then the sizes: the worst for its size at the top.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The feature, which figure of it, and the limit that it is held against</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The field feature where none is chosen.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The field part where none is chosen. Its words foot and top, left and right, tell the two edges.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The field {column} has a size at {at:.3f} m along the line, which is {length:.3f} m long. Correct the place, or take the line that was meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The field {column} holds &quot;{text}&quot;. Write pairs of metres along the line and size, such as {{&quot;depth_m&quot;: [[0, 0.4], [12.5, 0.55]]}}, or empty it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The field {column} names {name}, which is no size of a trench. Write width_m, depth_m or invert_m.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The figure, its 95 % interval, and what is allowed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The geometry is a collection of several kinds, not {wanted}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The geometry is a surface of faces in space, not {wanted}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The geometry is damaged or of a kind that is not known.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The geometry is {what}, not {wanted}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ground as it is to be. Give this, or a level, or a plane.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ground between the points ±{half:.3f} {unit} besides</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ground between the points: no more than that was found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ground between the points: not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ground stands above the slab&apos;s top by up to {over:.3f} m over {area:.2f} m2. Dig it away in the surface, or lift the slab.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The header of {file} names the column &quot;{column}&quot; twice (fields {one} and {two}). Rename one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The height misclosure is not spread. Look for a changed pole height (WK-03), or walk the heights again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives (the same could be said of {also}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The heights of {feature} fit clearly better with one jump of {jump:+.2f} m from station {station} on. No step is drawn there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The heights of {walk} were moved by {shift:+.3f} m to those of the levels, or of the first list: they are in another datum, or a mark or a level is not the same point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) covers the whole of its outer ring.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) lies inside another hole.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) lies outside its outer ring.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) lies over another hole, so that their common ground would be taken off twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) reaches over the edge of its outer ring.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The instruments file has no row {instrument}: walk {walk} goes by the default, or its own sd.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The interval of contours is {interval:g} m. Give one above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The invert has a level at one end alone. Give both, or the depth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other levels give (the same could be said of {also}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other levels give.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The later survey lies {shift:.3f} m beside the earlier one and is turned by {turn:.4f} degrees, more than both placements state. This is taken off, and is no change of things. Check the control of both.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer has no CRS, so its sizes on the ground are unknown. Set the layer&apos;s CRS (it says what the coordinates are; it does not move them), then run this again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer holds neither areas nor lines. Choose a layer of one of them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer holds {count} surfaces: {names}. Filter it to the one that is meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer holds {there}, and {wanted} are to be measured. Choose a layer of them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer of depths has one area for each.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer of the baseline holds {count} lines. Select the one to station, or join its parts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer of {name} holds several surfaces. Filter it to the one that is meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer {layer} cannot be edited. Choose another layer, or a new plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer {layer} does not take it. Choose another layer, or a new plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer {layer} has no CRS, so its sizes on the ground are unknown. Set the layer&apos;s CRS (it says what the coordinates are; it does not move them), then run this again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer {layer} has no column for the names of marks. Choose one, or a new plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer {layer} has no column that says whether mark {mark} is paired. Choose one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer&apos;s CRS cannot be read: {why}. Set it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layer&apos;s CRS {crs} has no plan coordinates. Reproject the layer into a projected or geographic CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The layers hold {count} surfaces: {names}. Filter each layer to the one that is meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The leg from {start} to {end} of {feature} took {seconds:.0f} s of moving.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The level is {level}. Give a height in metres.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The level {level:g} m lies {off:.0f} m beyond the surface&apos;s heights, {low:.2f} to {high:.2f} m. Is it in feet, or of another datum?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The library {library} is not installed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The limits are the examples shipped. Give a table of the limits that hold where you build.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line ends where it begins, and its heights there differ by {off:.3f} m. Give both one height, or end the line beside its start.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line goes straight up at {at:.2f} m along it, which has no gradient. Take its steps as steps.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line has fewer than two points. Draw it through its stations.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line has no heights of its own and leaves the surface. Give it heights, shorten it, or extend the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line has no heights, so that it has no gradient. Give each vertex one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line has several parts. Split it into rows of one part each.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line leaves the surface. Shorten it, or extend the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line lies outside of what the survey&apos;s CRS can hold.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line meets no edge or station that has a height. Draw it across the edges.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line of the trench has no length. Draw it along the trench.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line turns back on itself at {at:.2f} m along it, by more than 168 degrees. Draw the way back as a row of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line was given up.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The log {file} is in degrees, at {lon:.4f}, {lat:.4f} (longitude, latitude), and no CRS was chosen for the map: the survey goes to {crs}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The logs of this survey are not known here. To answer its findings, place it or survey it again, start a new job from the folder of its logs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The map of depths needs the library {library}, which is not there. Install it, or leave the map out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The map point of mark {mark} has a one-sigma of {sigma:g} m. Give {most:g} m at the most.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The map points do not fit the survey: {mark} is {residual:.3f} m off.{hint}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The map points were brought from {source} to {target} by a way that is good to {accuracy:.2g} m: the whole site can be that far off. Its sizes are not touched.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The marks agree less well than the instrument should give: the test {what} has a chance of {p:.1e}, and no single stand explains it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The marks have no column mark or name. Choose the column that names them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The marks that walk {walk} shares with the others ({shared}) lie in one place, so its turn is not known. It is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The marks that walk {walk} shares with the others are {base:.1f} m apart at the most, and it reaches {reach:.1f} m away: expect {far:.2f} m (95 %) at station {station}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The marks, tapes and levels do not hold the walks together once what disagrees is let go. Answer the findings on marks with leave out or exchange, or mend the logs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The mesh {name} holds no faces. Choose a mesh layer of triangles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The misclosure is not spread. Look at these legs, and walk the section again or split the walk there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The numbers above come to {sum}, not to the {stored} that is stored: was the row changed after the survey was made?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The numbers above come to {sum}, not to the {stored} that is stored: was the row changed since?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The one-sigma of a row is {sigma} m. Give one above 0, or none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The one-sigma of a vertex is {sigma} m. Give one above 0, or none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The one-sigma of {count} heights is no number that is 0 or more. Give one for each point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline crosses itself at ({x:.3f}, {y:.3f}), where its side {i} meets its side {j}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline goes out to ({x:.3f}, {y:.3f}) and back the same way.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline goes round the ground at ({x:.3f}, {y:.3f}) more than once.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline has loops that go round in opposite senses, one at ({x:.3f}, {y:.3f}): they would be netted off.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline has no heights, so it stands in no plane of its own. Give it heights, or measure areas.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline has no heights. Give its points some, or choose a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline lies off any plane by {off:.3f} m, more than {tolerance:g} m. Draw its two edges instead, or split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline lies on one line in space. Draw it round the face.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The outline would take {count} bands of {width} m, more than {most}. Give a larger width.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The pace is {speed} m/s with {hold} s at each stand. Give a speed above 0, and seconds that are 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The part at ({x:.3f}, {y:.3f}) lies inside another part, so that its ground would count twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The part at ({x:.3f}, {y:.3f}) lies over another part, so that their common ground would count twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The parts come to ±{sum}, not to the ±{stored} that is stored (one sigma): was the row changed after the survey was made?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The picture of {taken} is {days} days older than the survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The picture-date &quot;{cell}&quot; is no date, so nobody can see whether the picture is too old.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The places lie outside of what the surface&apos;s CRS can hold.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plan area of strips of even width along the lines of any layer, or round the outer edge of its areas: mowing strips, margins, edgings, verges; true to the ground, with its uncertainty.

A strip lies to one side of its edge, half to each, or its width to either. Arcs keep their centre and corners are mitred, so that the area is exact: the width by the length of the strip&apos;s middle. left_m and right_m are the lengths of its edges along a line. Where a strip runs over itself, or round an area into a hole or another part, finding says that this ground counts twice or too; an edge without room for it is refused.

Have buried services located before breaking ground. Not a boundary or legal survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plan has {count} stations, and {most} are the most. Choose the lines that will be walked, with a vertex at each station only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plan reaches {reach:.0f} m from its middle, and {most:.0f} m are the most. Choose the walks of one site, and check the CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plan was changed since: forecast again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plane nearest in height to {n} places (least squares) rises {p} a metre east and {q} a metre north.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plane nearest to the heights of the stations below.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The planned lines lie outside what their CRS can hold. Check the layer&apos;s CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plugin&apos;s zip brings it: install the plugin again from the zip and start QGIS again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The points lie in one line, so that they tell no fall across it. Give one beside it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The points lie on one line (bearing {bearing:.2f} degrees) within 0.5 mm. Give a point off it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The points of the plane and the surface do not lie in one frame: only one of them has a place on the map. Choose layers that are all placed, or all in one local grid.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The radius is {times} stem diameters, {cap} m at most. Give a factor above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The rest goes away.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ring {ring} has fewer than three points with a place. Draw it round the ground that it bounds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The root protection circle of each tree of a layer of points: 12 times the stem&apos;s diameter at 1.5 m (in the US 1.37 m), 15 m at most; several stems count as one of the same section, more than five by their mean. True to the ground, as true circles, with area, fence length and their one-sigma.

With a layer of works (dig, fill, paving) every tree tells how much of its circle they take, which is asked about (TR-01), and Overlaps with works has a row for each tree and each outline of works with the area. What two outlines cover counts twice.

The rule is that of BS 5837:2012 from memory; factor and cap are yours to set. Trees follow local codes and a licensed practitioner&apos;s judgement: a circle says nothing of where the roots are. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row has no line or outline that can be read. Draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row has no spacing above 0. Give the distance from plant to plant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row has {count} lines. Split it into rows of one part each.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row is no single point. Give each tree one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row lies where the layer&apos;s CRS has no place. Check the layer&apos;s CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row {instrument} of the instruments file gives neither leg noise nor stand noise: walk {walk} would be certain beyond what any instrument is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The row&apos;s heights are the survey&apos;s times {unit:.8g}: its layer&apos;s CRS counts heights in another unit than they are in. Choose the survey&apos;s own layer, or bring the heights into the unit of the CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The rows cannot be written: {reason}. Choose another format or place for the output; a GeoPackage (.gpkg) takes all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The run was stopped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The same for heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The section at chainage {chainage:.3f} m has an area of {area:g} m2. Areas of cut and of fill are 0 or more, and are never netted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The setting {key} is &quot;{value}&quot;, which cannot be used; {default} is taken. Set it in Settings, Options, Ground Tally.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sides lean by {batter} m per metre. Give 0 (upright) or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sigmas of this job are too far apart to be reckoned with (the largest is {largest:.3g} m). Check the instruments, the sd columns and the lengths of the walks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The size and what it may be off by in 95 of 100 walks; and how far its farthest-off corner may lie off on the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sizes along the line were noted from its other end: the line was turned round since. Give width and depth, or take the survey&apos;s own row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sizes along the line were noted on one of {noted:.3f} m, and this one is {length:.3f} m long. Give width and depth, or take the survey&apos;s own row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The slab has an underside but no heights on top. Give its corners heights, or a thickness.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The slab has no thickness above 0. Give one, or the level of its underside.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The slab&apos;s corners lie on one line, so they tell no top. Give a thickness.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The slopes of single triangles are worth {blur:.1f} % and the narrowest band is {band:.1f} % wide: noise makes ground steeper than it is. Take wider bands, or fewer and better levels.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The spacing is the median distance from a point to the next.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The station next to mark {mark} is nearer to another mark. Draw a station on each, or move one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The stems &quot;{text}&quot; are no numbers. Write diameters in metres with + between, such as 0.12+0.15.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The step of the depths is {step} m. Give a number above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The steps go up and down: after {at} stations a riser goes down. Split the line at the top.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The steps have no heights. Give each nosing and each foot of a riser one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The strip is {strip} m deep. Give a depth that is 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The strip is {width:g} m wide. Give a width above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The strip reaches into a hole or another part of the area: that ground counts too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The strip runs over itself: ground there counts twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface and the layer do not lie in one frame: only one of them has a place on the map. Choose layers that are both placed, or both in one local grid.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface does not reach x {x:.3f}, y {y:.3f} of the survey plane. Choose a place on it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface has no triangles, so that no water stands on it. Build it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface leaves out {left:.2f} m2 of {whole:.2f} m2 of the slab. Extend it, or cut the slab to it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface leaves out {missing:.2f} m of the line, from {at:.2f} m along it. Extend the surface, or cut the line to it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface lies over itself near x {x:.3f}, y {y:.3f} of the survey plane, so that it has two levels there. Build it again from its points, or cut its layers one by one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface {name} has a corner without a place or a height. Give every corner all three coordinates.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface {name} has two heights at one place, {low:.3f} m and {high:.3f} m at {east:.3f}, {north:.3f} in the survey plane. Take out upright faces, or draw their foot a little off their top.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surfaces and the layer {layer} do not lie in one frame: only one of them has a place on the map. Choose layers that are all placed, or all in one local grid.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey does not say what this row&apos;s heights are worth. Walk it with heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey is not placed on a map: {count} of its marks have a map point, and two are needed. It is in a plane of its own; sizes are right all the same.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey is placed on two pairs only, with no check point: exchanged pairs (a half-turn) would fit just as well.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey is placed, but {points} would agree as well with {one} and {other} exchanged: they cannot tell the two apart.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey kept this figure out ({codes}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey kept this row&apos;s figures out ({codes}). Answer its findings in the decisions file and run the survey again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey plane is taken at height 0 (none is known): each 100 m above makes true lengths 1.6e-5 longer.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey plane is taken at {height:.1f} m: the control&apos;s height in its own datum, taken for one above the ellipsoid (no `# separation:` is given; 50 m would change the map&apos;s lengths by 8e-6, the measured sizes not at all).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey was run again after these checks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey&apos;s heights were moved by {shift:.3f} m onto their datum, the inverts stand as they were noted: make sure that they are levels in that datum, or give the inverts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The survey&apos;s own figure and uncertainty; the survey&apos;s layer tells what they are made of.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The table of limits was changed after these checks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The tape from {start} to {end} is not used: no walk stands on {missing}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The tape from {start} to {end} is not used: no walk stands on {missing}. Is it {like}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The tape from {start} to {end} lies along the slope, but the height of {blind} is not known: it is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The three points of an arc lie on no circle. Move its middle between its ends.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The three points of the plane lie in one line in plan. Move one of them off it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The times of walk {walk} leave no moving time to {count} of its stations ({station} is the first) once the hold is taken off; their legs are judged by their length at walking speed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The tolerance of a fit is {tolerance} m. Give one above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The top lies {under:.3f} m below the foot at {at:.2f} m along it. Exchange the two parts, or correct heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The tree has no stem diameter above 0. Give it in metres, of several stems with + between.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The tree has {count:g} stems. Give a whole number from 1 to 1000.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The trench has inverts and no ground: neither a surface nor heights of its line. Give one of them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The trench has no depth anywhere along its line. Note it, or give its depth or inverts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The trench has no depth: neither a size nor levels of its invert. Note one, or give the parameter.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The trench runs over itself: ground there counts twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The triangles do not fit together near {east:.3f}, {north:.3f} in the survey plane. Merge points within a larger distance, or leave out what lies too close there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The two hold {count} surfaces: {names}. Give two of one surface each; filter a layer to the one that is meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The two surfaces share no ground. Choose two of one place, in one datum.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The underside lies {over:.3f} m above the slab&apos;s top at its lowest corner. Correct the level or the heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The unit &quot;{unit}&quot; is not known. Use one of: {units}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The values are written as angles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The walks close, but no length was taped: a closed loop cannot show the instrument&apos;s scale.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The walks could not be brought together: places still move by {move:.1e} m in the last round. Check the mark names, units and axes of the logs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The walks could not be brought together: places still move by {move:.1e} m in the last round. Look first at this, {code} at {place}: {message} {remedy}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The walks have no marks, so there is nothing to pair.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The walks {one} and {two} have different key lines. Write them to logs of their own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wall has a top only. Walk its foot, or give a height.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wall has no height: neither a top over its foot nor a size. Walk the other line, or give a height.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wall has no second edge. Walk its foot and its top, as parts foot and top of one feature.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wall is {t} m thick. Give 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wall&apos;s line has no length. Draw it along the wall.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The whole working as plain text, to be pasted into a letter.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The width is {width:g} m somewhere along the line, which is no section. Note it, or give one above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The width to either side</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The work stopped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The worst; {count} more are smaller</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The zero line needs the library {library}, which is not there. Install it, or leave the line out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The {size} of {feature} is noted from {least:.3f} to {most:.3f} m. Its row has none; each station&apos;s own stands in the table stations.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The {size} of {feature} is noted from {least:.3f} to {most:.3f} m. Its row has none; what was noted along it stands in its column sizes_along, and by station in the table stations.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Their overlaps with the circles are listed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Then click an area, a length, a side, a station or a mark on the map.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no geometry.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no geometry. Draw it, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no such folder.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no walk log among the files: {files}. Add one, or a point list, GPX, NMEA 0183 or LandXML.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no walk to write. Choose one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is nothing in this survey that limits are of.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is nothing to cut along. Give lines, or a baseline.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>These are examples, some from memory. Local codes and a licensed practitioner&apos;s judgement rule: tick what holds where you build, or choose a table of your own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thickened sides that lie near the outline and not along its outer edge within 20 mm: {count}. What lies off it thickens nothing: move it onto the edge.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thickness, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thickness, vertical, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This format holds no curves: arcs are written as chords of one degree. The figures are those of the arcs. A GeoPackage (.gpkg) keeps them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This survey has no heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tick a limit that holds here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tick a log.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tick one file of {kind}, or all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tick one file of {kind}: what lies in the folder is read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Times are those of arrival, and holds the seconds held from then on: check both columns.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To a level, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To a plane through three points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To the next</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Top or foot of the wall has no heights. Give both, or a height.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Top or foot of the wall has no length in plan. Draw it along the wall.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Topsoil taken off all of the ground beforehand; it is never fill.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Topsoil taken off all of the ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Trapezoid: leaning sides</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Trees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Triangles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Triangles of the surfaces that LandXML files hold, as they stand there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Triangles with heights, or a mesh; without it the areas&apos; own heights count. Ramps and paths drawn as one line take their crossfall from it, and their heights where they have none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Triangles with heights, or a mesh; without it the rows&apos; own heights count.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>True ground area and perimeter of each outline of any polygon layer, with their uncertainty, whatever the layer&apos;s CRS: degrees, feet and web mercator too. Arcs are exact, holes are out.

Every row of the layer comes back with its own columns and, added: area_m2 and perimeter_m (of the outer rings), in plan; sloped_area_m2 on the plane nearest to its heights, where it has any (heights that are all zero are none); every _sigma is one standard deviation; method says how it was measured, finding why an outline was refused and what each remedy would give.

What the corners are worth is not in a layer, so it is assumed: state it, or take it from a field. A survey&apos;s own areas keep the figures and the uncertainty that the survey gave them, where the outline is as the survey drew it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>True ground length of each line of any line layer, with its uncertainty, whatever the layer&apos;s CRS: degrees, feet and web mercator too. Arcs are exact.

Every row of the layer comes back with its own columns and, added: length_m in plan, of all parts together; where the line has heights (all zero are none) slope_length_m along the slope and, of a line of one part, rise_m of its end above its start and gradient_ratio, rise by length, positive up along the line; every _sigma is one standard deviation; method says how it was measured, finding why a line was refused.

What the points are worth is not in a layer, so it is assumed: state it, or take it from a field. A survey&apos;s own lengths keep the figures and the uncertainty that the survey gave them, where the line is as the survey drew it. Gradients of ramps and steps follow local codes and a licensed practitioner&apos;s judgement.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Trying these pairs...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two breaklines cross near {east:.3f}, {north:.3f} in the survey plane and have no point in common there. Draw a point where they meet.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two curves? Put a `curve-end` where they meet. Wrong passing point? Take it out. Or accept it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two curves? Wrong passing point? Correct the log, or accept it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two holes of one area may overlap, and telling that needs the library {library}, which is not installed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two levels at {place} differ by {off:.3f} m, more than three times what they are worth; their mean is taken.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two marks are called {mark}. Give each a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two nosings stand over each other. Correct their places in plan.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two rings of the outline cross each other at ({x:.3f}, {y:.3f}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two rows are the {part} of {feature}. Give each thing a name of its own, or join the rows.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two surveys of one place, or two surfaces: what was added, is gone, moved, or changed in size or height, each tested against what both know, so that noise is called noise.

Comparison has a row for each thing: its figures before and after, the change with its sigma, p and the outcome: same, changed, cannot tell (a change of the size asked about could hide), added or gone. Every p holds for the whole pair of surveys: in an unchanged place the chance that anything at all is told as changed is the level, or less. A shift, a turn or a step in height that all places share is found first, told in the summary, and taken off. Rows of the kind patch are neighbouring heights that changed together, which are found where none of them would be by itself. Of two surfaces it has the ground as a whole, and its patches with their volumes. What changed shows it on the map.

Not a boundary or legal survey: a moved edge is evidence and no title. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two walks are called {walk}. Give each a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>US survey feet (1200/3937 m)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Units of single files, in place of their own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Units, CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Used to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>V-shaped: down to the middle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertex {row} of the outline has no place ({x}, {y}). Leave such vertices out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertex {row} of the outline is the middle of an arc, but has no end of it on both sides. Give arcs as start, middle, end.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertices to fit are x and y, (n, 2), each with whether it is the middle of an arc, (n,); here they are {shape} and {mids}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Voids</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Volume</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Volumes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Volumes of {name} to {target}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk it again if it is a corner or a mark; accept it if it was passed on purpose.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk logs (CSV with the columns walk, station, x and y); or one folder, of which every text file counts. Control, tapes, instruments and decisions that lie in the folder are found by their content. Point lists, GPX, NMEA 0183 and LandXML are read too, told by their content.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk past two marks of the others, or place this walk on its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk the heights of its ends; or answer level if it was held level after all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} comes back to {mark} {gap:+.3f} m off in height, where its instrument should give {expected:.3f} m (one sigma).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} comes back to {mark} {gap:.3f} m off, where its instrument should give {expected:.3f} m (one sigma). Between stations {start} and {end} any one of these alone would explain it: {suspects}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} comes back to {mark} {gap:.3f} m off, where its instrument should give {expected:.3f} m (one sigma). No single leg or turn between stations {start} and {end} explains it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} ends on mark {mark}, and nothing checks the way there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} ends on mark {mark}. Between its marks a single blunder would be seen from this size on: {sizes}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} fits the known levels only with its marks {one} and {other} exchanged (would serve as well: {others}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} fits the other walks only as a mirror image (would serve as well: {others}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} fits the other walks only with its marks {one} and {other} exchanged (would serve as well: {others}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} has two stations {station}. Give each a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} has {count} stations, and a column of {cells}. Give each station its cell.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} has {count} stations, and two are the fewest. Draw it through all its stations.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} shares fewer than two marks with the others (shared: {shared}), so its place and turn are not known. It is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk} stands on no mark: nothing checks it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk}, station {station}: it has no place. Draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk}, station {station}: mark {mark} is planned {gap:.2f} m from where it was before. Draw it in one place, or give one of the two another name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk}: its lengths between marks are {ratio:.4g} times those of {source}, and no unit would explain that.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk}: its lengths between marks are {ratio:.4g} times those of {source}; the log says {unit}, and {true} would fit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walk {walk}: {stations} stations, {length:.0f} m, {minutes:.0f} minutes.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walking speed, metres a second</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walls</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Walls, kerbs and edgings along the lines of any layer: front, centre and back length, arcs exact and corners mitred, retained height, face, body, footing and backfill, courses, and where straight units fit a curve.

Two lines of one feature whose parts are called foot and top give the height along the wall; where both are closed, as of a planter, it does not count where either begins. A line of its own takes the height that is given. Every row comes back with its own columns and these figures, each with its one-sigma; of two lines they stand in the row of the foot. design_ratio is the chance that the height passes the height from which a licensed designer is asked for, at the place where that is likeliest.

Walls and retaining structures follow local codes and a licensed practitioner&apos;s judgement. Have buried services located before breaking ground. Not a boundary or legal survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Was it the same point, with the same pole height? Correct the log, or leave this height out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Was it the same point? Correct the mark&apos;s name in the log, or leave this stand out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Was the pole height changed? Enter it in the column pole before and after, or accept the heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Waste of concrete, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Water of all ponds, cubic metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ways out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Weak beyond, spacings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Weak triangles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Weak: {share:.0f} % of its area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What changed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What each column is, in order, with commas between: number, northing, easting, elevation, description, longitude, latitude, or other for a column that is only kept. It counts for every point list of the run, whatever its header says. For single lists, an entry each, with semicolons between: points.csv: number, easting, northing; pegs.txt: northing, easting.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What each height is worth by itself. It is an assumption, and may come from a field. A survey&apos;s own levels bring theirs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What each instrument is worth, one sigma.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What each instrument is worth, one sigma: the file that goes with the logs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What each point is worth by itself, one sigma along each axis; a shift of all of them together changes no size. It is an assumption, and the rows say so. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What every run begins with, where nothing else is given to it. Stored figures are always metres.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What heights are worth against each other is assumed for: {walks}. Make these surveys again to have it kept.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What is delivered for what is laid, above 0: taken once.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What is dug along the lines of any layer: volume, plan area, face to be lined or seeded, the mean section (the dig per metre), and mean, greatest and least depth, true to the ground, each with its one-sigma.

The section is rectangular, V-shaped, a trapezoid whose sides lean by the batter, or round-bottomed, and goes along the path of its centroid, arcs exact. Its depth is one, runs evenly to the depth at the end of the line, or from place to place as noted (a prismoid from each to the next); or it goes from the ground down to the inverts at both ends and the bedding below, the ground being the surface of the ground, cut at the edge of every triangle, or the line&apos;s own heights. Widths, depths and inverts that were noted on site are taken from a survey&apos;s lengths where they are not given.

Have buried services located before breaking ground. Trench sides need support, a safe slope or nobody in the trench, by local rules and a competent person&apos;s judgement: batter and depth are sizes here, not advice. Not a boundary or legal survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What is not given is taken from sizes noted on site, in the columns {columns}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What is to be known of the check</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What its uncertainty is made of (95 %, and share; the squares add up):</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What of</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the instrument is worth is taken from the accuracy that the log states.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the instrument is worth is taken from the instruments file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the instrument is worth is taken from the log&apos;s own sd columns.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the picture&apos;s points err by against each other, one sigma, metres.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the whole picture may be shifted by, one sigma, metres: it moves the site, not its size.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What to show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What was drawn lies outside what the CRS of the layer {layer} can hold. Choose another layer.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What was noticed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What would help</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What would help most:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where a larger one could hide the outcome is cannot tell; of an area this times its outline.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it is empty, as-walked rows are drawn as recorded, with a chord from row to row. Else they become the fewest straights and tangent arcs of which no row lies off by more than this; corners stay. Take five times the noise from row to row, or more. Nothing is fitted where the rows do not speak for it: those stay as recorded, and their method says so.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it is empty, radii are alike that differ by no more than their joint 95 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it is empty, the examples shipped. Copy limits.csv of the formats and edit it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it is empty, the third coordinate counts, in the CRS&apos;s unit of height.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it is empty, what is left over when the arcs are fitted tells it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it is not 0, the depth runs evenly from the depth above, or from what was noted at the start, to it. It may come from a field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it lies, looking along its line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where the strip lies</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where the wall lies, looking along its line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where there is no boundary, longer ones are taken off from outside; where it is empty, none is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where water stands on a surface of triangles: the level it rises to before it runs off, depth, area and volume, exact over the triangles, each with its one-sigma.

Ponds has them, the deepest first; Spill points where they run off; Ways out the way the water takes from there, downhill over the triangles, into the next pond or over the rim. Outer edges of the surface and edges of voids let water out: put drains in as voids. Where the depth is less than its 95 % interval, the outcome is cannot tell. What soaks away, dries or is too deep for a pipe is not reckoned.

Falls and drains follow local codes and a licensed practitioner&apos;s judgement. Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Whether a strip runs over itself is told by the library {library}, which is not there. Install it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Which &amp;column is which...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Which checks to show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Who answers findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of a mesh sheet, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of a path drawn as one line, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of a profile&apos;s face, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of a roll of turf, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of a thickened edge at its foot, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of drain and backfill behind the wall, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of the footing, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width of the strip, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width to the left, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width to the right, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width, metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Widths of {left:g} m to the left and {right:g} m to the right make no section. Give widths of 0 or more, one of them more than 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>With commas between, as 5 %, 1:4 or 0.25, from the flattest to the steepest. The default is an example for mowing, common practice, no source: what a machine may mow its maker says.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>With heights of their own, or over the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Words with commas between, such as: ADA, Practice paving; a whole name between double quotes.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Works lie where the CRS of the trees has no place. Check both layers&apos; CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Works: dig, fill, paving</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write all times of a walk in one way (with a zone, without, or in seconds); the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write cw or ccw into rot; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write it as a TIN: its points and faces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write it as lines and arcs, or as an IrregularLine; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write it like 2024-05-01T09:30:00, or as seconds from the start; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write it like 2026-05-12, 2026-05 or 2026.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write it like rise up to 150 mm, or run at 5 m, or empty the field; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write it like {example}; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write left or right into offset_side; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write one of meter, millimeter, centimeter, kilometer, foot, USSurveyFoot, inch, mile, or answer for {place} with m, ft or us-ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write one of these words or empty the field; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write one of: {units}, or answer for {place} with m, ft or us-ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write the area&apos;s name as its own rows have it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write {better}, or separate the columns with semicolons; the rest of the file was read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Writing the GeoPackage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Writing the stations</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Writing the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Written so finely, and all so near together: these are degrees. Hold the sketch against the site.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wrong point, wrong unit or wrong CRS: check these map points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zero line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zero line of {name} to {target}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a level</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a pixel is {size} of ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a plane</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>accuracy as stated</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>adjustment</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all of the ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all of the walks&apos; errors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all others, as lines only</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all {n} have an item</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>along the line, {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>and {count} more: enlarge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>and {n} edges more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>arc in the vertical plane, r {r} · {radians} ({sweep}) = {length}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>arc r {r} · {radians} ({sweep}) = {length}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>arc r {r}, θ {sweep}: {segment}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as in the file: {crs}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as in the file: {units}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ask</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>asks from here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>assumed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at {along:.2f} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>between: not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>blunder: three times</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot tell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check point {mark}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cm: centimetres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>come back to no mark: {walks}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>control</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>corner {figure}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>counted with {feature}, {part} (row {row})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cut (C)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cut C</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>decisions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>each map point by itself</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>each point, as stated</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>each station by itself</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>edge between stations {start} and {end} of {walk}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>existing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fails</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>far corner</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>feet (international, 0.3048 m)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>file of instruments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fill (F)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fill F</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fit is {value}. Give a part from 0 to 1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from memory: look it up before use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from station to station</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ft: international feet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>heading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>height known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>hole</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in {datum}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in: inches</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>instrument</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>instruments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>known levels</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>left out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>length, {words}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>let go; off by {size}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>level</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>level of {mark}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>level {level:g} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>level, {unit} ({datum})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>looked up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>m: metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>map point that was fitted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>map point {mark}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>map points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>map to walk {scale:.4f}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mark {mark}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mm: millimetres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nearly level, so it may fall any way</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>new or not stated</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no date</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no error</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no figure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no figure: {codes}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no figures: see findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no limit is of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no limit of the table is of anything here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no source given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no surface yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no taped length checks the size of the walks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no walk comes back to a mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>noise from row to row</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>noise of legs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>noise of stands</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none yet: drawing makes one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none yet: setting makes one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none: a plane of its own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none: nothing checks the walks against each other</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none: upright</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none: what was walked alone</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not given in the file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not held against limits yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not known (assumed)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not picked</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not told</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not used</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>note</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing changes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing lies under the survey, and no mark can be picked from it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing surveyed yet: run the job</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only the way</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>out of date: {words}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>passes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>perimeter {size}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>picture</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>placement</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>point list</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>prices</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>relative</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>relative: no level mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>residual in its own sigmas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>row {n}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>scale</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shift of all map points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sigma</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>spot with its height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>station</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>station {station} of {walk}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>station ± 95 %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stops from here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>straights and chords {straights}, segments {segments}: {area}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>surface {name}, as in its file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>taken {date}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>tape {mark} to {other}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>taped lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>tapes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the CRS&apos;s own unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the accuracy that the logs state counts, or an assumed one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the control&apos;s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the control&apos;s datum</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the control&apos;s: {crs}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the examples</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the folder is not writable</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the logs&apos; own CRS places the survey, and nothing checks it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the mark lies within (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the survey cannot be read: run the job again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the survey will not be placed on the map; it is measured all the same.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the survey will not be placed; pair marks with the picture afterwards.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they cannot be read: check again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>tiles: a pick is worth a pixel as the map shows it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>to remove</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>to retain</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>together {area}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>together {length}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unknown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unknown table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>upright</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>us-ft: US survey feet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>walk log</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>walked edge ± 95 %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>weak</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>where a walk alone puts the mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>where the edge is taken to lie</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>x, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>y, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>z, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{answer} (recommended)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{areas} areas, {total:.1f} m² in all; {lengths} lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{code}: {message} {remedy}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{column} is chosen twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{counts}; worst: {check}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} edges are left out: an open stop keeps their heights out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} lines meet no surface: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} more like this.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} of the points given have no place or no height. Give all three coordinates, or leave them out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} point makes no line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} point makes no line. Add points, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} points: {width} from west to east, {height} from south to north.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} sections cross the next one inside a bend of the baseline: what lies there is counted twice in end areas. Make the width on that side smaller.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} triangle of {total}, {part:.1f} % of the surface, is weak: far from every point, on one line of points, or a sliver of the rim.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} triangles of {total}, {part:.1f} % of the surface, are weak: far from every point, on one line of points, or slivers of the rim.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{denominator} cannot be the finest fraction of an inch. Use a whole number from 1 to {largest}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{feature} is no more in the survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{feature} was recorded by a phone (walk {walk}): its place and height are good for some metres only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{feature} was recorded by a phone (walk {walk}): its uncertainty is {part:.1f} % of its figure, more than the {within:.3g} % that may be priced.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{feature} was recorded by a phone (walk {walk}): its uncertainty is {part:.1f} % of its figure, within the {within:.3g} % that may be priced.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{feature}, {what}: {measured}, allowed {allowed} ({limit})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{feature}: {value:.2f} ±{half:.3g} {unit} (95 %); {shares}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} cannot be read as a survey: {reason}. Run the job again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has a column walk, so it is a walk log, not a point list. Give it the columns walk, station, x and y.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has a line # units. Take it out and give its sigmas in metres, then pick again: picks are kept in metres.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has no column names, and its rows do not show which columns give a place. Put a line with the names above them, such as: number, northing, easting, elevation, description.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has no header row. Give the column names in the line above the rows.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has no limit that can be used. {first}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has no points, parcels, plan features, alignments or surfaces of triangles that can be read. Give a file that has.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has no points. Give a line with column names, and a line a point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has {found} columns, but {wanted} were named: {columns}. Name each column once, and give {other} for one that is only kept.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has {found} columns; more than {most} cannot be a point list.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has {size} bytes, more than {largest}. Split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} has {size} bytes; more than {largest} cannot be a log. Split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} holds surfaces and no walk or point, so there is nothing to measure. Add the logs of the site; Read walks gives the surfaces by themselves.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is a table, but none that is read: no walk log, control, tapes, instruments or decisions, and no point list whose columns have names that are known. Its header is {header}. Correct the header, choose the columns before the run if it is a point list, or take the file away.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is empty. Give a table with a header row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is not UTF-8 and was read as Latin-1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} keeps no working of row {row} of {table}: it was added after the survey was made. Measure the layer instead (Measure areas, Measure lengths).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} lies among the files, has numbers in most of its lines, and was not read: no kind of table was recognised.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} starts as {encoding} but byte {byte} does not fit. Save it again as UTF-8 CSV.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} was written before workings were kept. Run the job again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: faces of the surface {feature} that cannot be read and are left out: {count}, such as &quot;{cell}&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: faces of the surface {feature} that stand there a second time and are left out: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: more notes: {found}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: more points of a name that stands there already, at other coordinates: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: of the surface {name} is not read: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: points of the surface {feature} that cannot be read: {count}, such as &quot;{cell}&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: points of the surface {feature} with the id of another one: {count}, such as {cell}; the first of each is taken.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, from line {line} on: {found} more lines cannot be read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line 1: the encoding &quot;{encoding}&quot; is not read. Save the file as UTF-8.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column hole_in: &quot;{name}&quot; is not the name of another area, so {hole} is not deducted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; does not say what the limit hangs on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is a formula, not its value.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is below zero.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is beyond {largest}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not a finite number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not a number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not a time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not above zero.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not from {least} to {most}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not in degrees.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not one of: {words}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not written as the first time of the walk is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: the field is blank.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: the offset &quot;{cell}&quot; has no side.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, key {column}: &quot;{cell}&quot; cannot be used; {words}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; cannot be used, and there is no GGA or RMC sentence that can. Record the log anew; a receiver&apos;s binary messages are not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; cannot be used: its checksum is wrong, a field is missing or too many, or a value cannot be. Such sentences: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; has a number beyond {largest}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; has a number that is not finite.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; has {found} fields where the header has {wanted}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; is cut short in a quoted field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; is in no sentence and was passed over. Such lines: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; is not a point: north, east, and a height or none.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; stands below the header.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: LandXML {version} is not known; it was read as 1.2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: a field that starts here cannot be read ({reason}). Close each quoted field with a quote, and double the quotes inside it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: a full circle in the outline of {feature} crosses the outline at ({x:.3f}, {y:.3f}) in the survey plane.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: a piece of the outline of {feature} is not drawn, so it has no area.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: a {element} of the surface {feature} cannot be read; it starts with &quot;{cell}&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: an offset of {feature} is larger than a curve or side of it has room for.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: faces of the surface {name} that ran clockwise and were turned: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: faces of the surface {name} without an area in plan, which are left out: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: fixes that repeat the time of the one before from the same place, or from another talker, were passed over. Such fixes: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: fixes that the receiver reckoned, took from the keyboard or simulated (quality 6, 7 or 8) were used. Such fixes: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: lat &quot;{lat}&quot; and lon &quot;{lon}&quot; are no place, nor has the file any other point that can be used. Give degrees from -90 to 90 and from -180 to 180.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: lat &quot;{lat}&quot; and lon &quot;{lon}&quot; are no place; the point is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: lon and lat are degrees, but the CRS {crs} is projected. Name the columns x, y, or give the CRS of the degrees.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: more than {most} elements stand within one another. Write the file anew.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: no day is stated with the times; they count from the first fix.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: nothing is drawn of {feature}: it has no two stations with a way between them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: nothing lies between at_least and at_most.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: one element, tag or comment has more than {most} characters. Split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: places in RMC at times without a GGA fix were not used. Such sentences: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: points without a fix were passed over. Such points: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: sentences without a checksum were used; a wrong digit would not show. Such sentences: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: sentences without a fix were passed over. Such sentences: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: station {station} of walk {walk} stands here again, first in line {first}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the Curve of {feature} has radii from {least:.4f} to {most:.4f} m (centre to start, centre to end, as stated).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the Curve of {feature} is {drawn:.3f} m long by its points but {stated:.3f} m by its {part}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the Curve of {feature} turns neither cw nor ccw but &quot;{cell}&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the XML is wrong from here on ({reason}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the coordinate system {name} is no projected one with an EPSG code, or it is moved or turned; the coordinates are taken as a plane of their own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} does not come to a `curve-end`; its last `curve` station {end} was taken for its end.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} has a radius of only {size:.3f} m.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} has no passing point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} is straight within what its stations can be trusted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} misses station {missed} by {size:.3f} m, where one sigma is {sigma:.3f} m.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} turns by {size:.1f} degrees without closing.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the file begins with &lt;{name}&gt;, not with &lt;gpx&gt;. Give a GPX file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the file breaks off before its first point ({reason}). Give the whole file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the file breaks off here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the file declares a document type or an entity (&lt;!DOCTYPE, &lt;!ENTITY), which can make a small file boundless. Take the declaration out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the header of a walk log stands here, but its columns are not separated by commas, semicolons or tabs. Separate them so.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the header stands here again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the hole {hole} sticks out of {area} by {out:.3f} m at ({x:.3f}, {y:.3f}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the limit has neither at_most nor at_least.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the linearUnit &quot;{cell}&quot; is not one unit that is known.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the numbers of the {element} are not {size} to a point; it starts with &quot;{cell}&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the offset of {offset:.3f} m is larger than {feature} has room for at ({x:.3f}, {y:.3f}) in the survey plane: its outline comes out turned about.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outermost element is {name}, not LandXML. Give a LandXML file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane once it is joined with its neighbours.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, where the way from station {a} to {b} meets the way from {c} to {d}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} ends {gap:.3f} m from where it began; it was closed by a direct side.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} goes round the same ground {times} times.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} has {count} different points, so it has no area.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} is open here by {gap:.3f} m, so it has no area.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} lies on one line, so it has no area.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the point &quot;{cell}&quot; refers to itself, perhaps by way of others.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the point &quot;{cell}&quot; that is referred to does not stand in the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the point list has no column names; its first row is {row}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the point {name} stands here again at other coordinates, first in line {first}; it goes on as {station}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the surface is said to cover {stated:.10g} in plan; its triangles cover {area:.10g} (in the square of the file&apos;s unit of length).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the surface {name} is not read: it has no triangles but {kind}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the surface {name} is not read: no face of it can be used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the tape runs from {mark} to {mark}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the time of station {station} of walk {walk} is {back:.3f} s before the time of station {other}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the units &quot;{cell}&quot; are not known.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the units &quot;{cell}&quot; are not known. Write one of: {units}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the {element} of {feature} has no {part}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: the {element} {feature} breaks off and is left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: there are more than {most} elements. Split the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: this is not XML ({reason}). Give a whole file of the kind that its name says.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: times without a zone were taken as UTC. Such times: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: units is &quot;{cell}&quot;, but the header says {unit}. Keep one of the two.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: walk {walk} stands here again, first in {other}, line {first}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: what stands in extensions was not used. Such elements: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} goes on {gap:.3f} m from where the piece before ended; an outline is closed there by a direct side, of a length nothing is drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} has a {element}, which is not drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} has no CoordGeom and is not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} stands here again, first in {other}, line {first}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole} and {other}, both holes of {area}, overlap by {overlap:.3f} m2 at ({x:.3f}, {y:.3f}) in the survey plane, which would be deducted twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it alone, but it lies inside {others} too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole}, a hole of {area}, cannot be measured yet ({code}), so neither can {area}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {key} is &quot;{cell}&quot; here but &quot;{first}&quot; in line {other}. Keep one of the two.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {mark} has neither a map point nor a height.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {mark} has one of {columns} without the other.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {mark} stands here again; it is already in line {first}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {one} and {other} lie over each other by {overlap:.3f} m2 at ({x:.3f}, {y:.3f}) in the survey plane, and both count it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {one} and {other} run along each other for {length:.3f} m, at most {gap:.3f} m apart and {over:.3f} m over each other, which is within what their stations can be trusted to.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {second} goes over the same ground as {first}, and the two lie {distance:.3f} m apart at station {station}; {allowed:.3f} m (95 %) would be expected.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: column {number} of the header has no name. Name it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: longitude and latitude are in degrees, but the CRS {crs} is not. Name a geographic CRS, such as EPSG:4326, in the line crs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: none of its {count} points has a fix (the first in line {line}). Record it under open sky.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: none of its {count} sentences with a position has a fix (the first in line {line}). Record it under open sky.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: not read: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: other sentences were passed over: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the CRS &quot;{crs}&quot; of the log is not known, or is of no place on the earth. Give an authority code such as EPSG:25831, or take the line out if x and y are in a frame of the walk&apos;s own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the CRS &quot;{crs}&quot; that was chosen for it is not known. Give an authority code such as EPSG:25831, or {none} for a plane of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the CRS {crs} that was chosen for it is no projected one with an EPSG code. Choose such a one, or {none} for a plane of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the column &quot;{column}&quot; is in {unit}, which is not read. Give it in one of: {units}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the columns &quot;{columns}&quot; cannot be used. Name each column of the file once, with easting and northing or longitude and latitude among them; the words are {words}, and {other} for a column that is only kept.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the columns were chosen, so its header is not used: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the control has columns for x, y and for lon, lat. Keep one of the two pairs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the control needs the columns mark and x, y (or lon, lat, or z alone); it has {header}. Name the columns so.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the coordinates look like those of a map, but no CRS is stated. Their lengths were taken for ground lengths; map lengths can be off by 0.1 % and areas by 0.2 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the decisions have no column {missing}. Their header needs finding, place and answer; it has {header}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the header gives the coordinates in {unit}, but the CRS {crs} has {has}. Correct the header, or the line crs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the header has {found} columns; more than {most} cannot be a table of ours.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the header names two units, {one} and {two}. Give coordinates and heights in one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the instrument {name} stands in another file too. Keep it in one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the instruments have no column instrument; the header has {header}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the limits have no column {missing}. Their header needs limit, applies_to, quantity and unit; it has {header}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the places of the spots of walk {walk} ({count}) come from a phone and are good for some metres; their heights are left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the point list has a header but no points. Give a row a point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the point list has no two columns that give a place. Its header needs easting and northing, x and y, or longitude and latitude; it has {header}. Name them, or choose the columns.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the points of {walk} lie outside the area of {crs} as recorded, and inside with northing and easting exchanged.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the stations of walk {walk} lie outside what the CRS {crs} can hold. Check the CRS, the unit and the order of the columns x (east or longitude) and y (north or latitude).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the surface {name} lies nowhere in this survey: of the two only one has a place on the map, or there is no good way between their CRSs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the tapes have no column {missing}. Their header needs from, to and distance; it has {header}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the track {feature} ends {gap:.1f} m from where it began; it was taken as a way.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the units &quot;{cell}&quot; that were chosen for it are not read. Choose one of: {units}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the units are not given.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the walk log has a header but no stations. Give a row a station.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: the walk log has no column {missing}. Its header needs walk, station, x and y; it has {header}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: there is no GGA or RMC sentence of NMEA 0183 in it. Let the receiver write one of them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: there is no point (trkpt, rtept or wpt) in it. Give a GPX file with one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: unknown columns are kept as they are: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: unknown keys are kept as they are: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: {key} chosen for this run: {chosen}; the file says: {said}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: {table} has no row {row}. Choose it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: {what} were chosen for it, but it is: {kind}, which has none to choose. Take the choice back.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{folder} cannot be made: {reason}. Name the survey elsewhere.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{group}: {cause}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{item}: {features}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer} has no figure {column} in row {row}. Choose a row of a layer that was measured.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer} holds no triangles. Choose a layer of triangles with heights, or a mesh, as a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer} holds no triangles. Choose layers of triangles with heights, or meshes, as surfaces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}, row {row}: The line has no length. Draw it again, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}, row {row}: There is no geometry. Draw it, or delete the row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}, row {row}: a breakline has a vertex without a height. Give each vertex one (z), or take the line as boundary or void.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}, row {row}: a point has no height. Give it one (z, or a column of heights), or leave it out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}, row {row}: this is neither a line nor an area. Choose a layer of lines or areas.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}, row {row}: this is no triangle. Choose a layer whose polygons have three corners each, or build a surface from it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{layer}: all heights are 0, as many programs write it where nobody levelled. Give the heights as z, or choose the column that holds them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{left:.2f} m of it have no ground of the surface under their whole width.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{left:.2f} m2 of it do not lie on both surfaces and are left out. Extend the surfaces, or accept it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{left:.2f} m2 of it do not lie on the surface and are left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{left:.2f} m2 of it do not lie on the surface and are left out. Extend the surface, or accept it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{length} is not a length that can be written in feet and inches.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{level:.3f} {unit}, 95 % not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{level:.3f} ± {half:.3f} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{mark} in {walk}, height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{mark} in {walk}, plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{mark} lies off most, {size}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{mark}: at the &amp;ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is far too large for a table of limits. Choose another.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is not given: sizes noted on site are taken from the field {column}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is not loaded. Enable the plugin again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is {value}. Give a number above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} of a ramp is {value}. Give a number above 0.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} to {target}; ± is 95 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: none here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: say which column is which, or untick it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: which column is which?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: {count} rows have none that is 0 or more; {default:g} is taken for them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: {given} is no layer that can be read. Choose a layer, or a file of one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: {rule} cannot be worked out: {why}. Correct it, or give a number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: {value} is given. Give a number that is 0 or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{now}, not {written}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} answered</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} cannot tell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} different points make no circle. Give three or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} different points make no outline. Give two or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} different points make no walked line. Give three or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} fail</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} marks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} not measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} pass</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} sides without an item, {size} in all</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} that stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} to answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} to know</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be read ({reason}). Choose the table of limits again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be read as a survey of this version ({reason}). Run the job again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be read as checks of this version ({reason}). Press Check again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}. Choose another folder or name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}. Close it in other programs, or choose another folder or name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} gave {done} of its {total} rows: it is damaged. Export the layer to a new file, and measure that.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} has no area of the surface {surface} with heights. Draw a boundary instead, or build it without one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no height of the surface {surface}. Choose another surface, or write its name into the logs&apos; column surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no instrument {name}, but: {names}. Name one of them. {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no stations with a place. Run the job again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no stations. Choose a GeoPackage that Survey walks has written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no table {table}. Give a GeoPackage that Survey walks has written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no text files. Give the folder that the logs lie in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds the layer that is read, and would be replaced. Choose another file or table for the output.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is no survey. Choose a GeoPackage that Survey walks has written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not there, or is neither a survey nor a surface. Choose a GeoPackage that Survey walks or Build surface has written, or another file or layer of triangles with heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not there. Check the name, or choose the file again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} or the survey before it is not placed on the map, and they name no two places alike. Place both, or name the marks alike.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} was named as {part}, but it holds: {kind}. Name the right file, or correct its header row.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} would hold {kept} of {count} rows: this format keeps none without geometry. Choose another, such as a GeoPackage (.gpkg).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{percent:+.1f} ± {half:.1f} %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{points} points, {triangles} triangles, {area:.1f} {unit}²</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{ratio} (1 in {steep:.1f} to 1 in {flat:.1f})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{ratio} is not a gradient.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{rise:+.3f} ± {half:.3f} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{run:.2f} {unit}, {ratio}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{share:.0f} % of it rests on weak triangles. Add levels there, or draw a boundary.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{survey} is a survey and {other} is none. Give two surveys, or two surfaces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{table} holds no figures. Choose one of: {known}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{table}.{column} is no figure that has a working. Choose one of: {known}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} cannot be set here. Give a number from {least} to {most}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value}, between {low} and {high}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{v} vertices by {n} rows are too many to hold how each moves with each. Take them part by part.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{walks} read, {stations} stations</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{weak:.2f} m2 of it lie on weak triangles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{what} {advice} Such places: {count}; the log tells the first {told}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{what} ±{before:.3g} to ±{after:.3g} {unit} (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{what}: {content}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>±{reach} (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>±{size} at the worst station (95 %)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
</TS>
