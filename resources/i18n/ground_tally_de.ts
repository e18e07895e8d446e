<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>GroundTally</name>
    <message>
        <source> in {crs}; ±{reach} at the worst station (95 %)</source>
        <translation> in {crs}; ±{reach} am schlechtesten Standpunkt (95 %)</translation>
    </message>
    <message>
        <source>! Assumed: nobody measured what these points are worth.</source>
        <translation>! Angenommen: niemand hat gemessen, was diese Punkte wert sind.</translation>
    </message>
    <message>
        <source>! The numbers do not come to the figure: see the end of the formula.</source>
        <translation>! Die Zahlen ergeben das Maß nicht: siehe das Ende der Formel.</translation>
    </message>
    <message>
        <source>&quot;{crs}&quot; is no CRS that is known here. Give an authority code such as EPSG:25831, or leave it out to take the control&apos;s.</source>
        <translation>„{crs}“ ist kein hier bekanntes KBS. Einen Code wie EPSG:25831 angeben, oder weglassen, um das der Passpunkte zu nehmen.</translation>
    </message>
    <message>
        <source>&quot;{text}&quot; does not begin with a file of the job and a colon. Write it like {file}: ..., with entries apart by semicolons; the files are {files}.</source>
        <translation>„{text}“ beginnt nicht mit einer Datei der Arbeit und einem Doppelpunkt. So schreiben: {file}: ..., Einträge durch Semikolons getrennt; die Dateien sind {files}.</translation>
    </message>
    <message>
        <source>&quot;{text}&quot; is not a gradient. Write it like 1:20, 5 % or 2.9 deg.</source>
        <translation>„{text}“ ist keine Neigung. So schreiben: 1:20, 5 % oder 2.9 deg.</translation>
    </message>
    <message>
        <source>&quot;{text}&quot; is not a length. Write it like 12.4 m or 8&apos; 7 7/16&quot;.</source>
        <translation>„{text}“ ist keine Länge. So schreiben: 12.4 m oder 8&apos; 7 7/16&quot;.</translation>
    </message>
    <message>
        <source>&quot;{text}&quot; is not an accuracy. Write it like 0.5 % or 0.02 m + 0.3 %.</source>
        <translation>„{text}“ ist keine Genauigkeit. So schreiben: 0.5 % oder 0.02 m + 0.3 %.</translation>
    </message>
    <message>
        <source>&quot;{text}&quot; says nothing of {file}, or says it twice. Write each file once, with what counts for it.</source>
        <translation>„{text}“ sagt nichts zu {file}, oder sagt es zweimal. Jede Datei einmal schreiben, mit dem, was für sie gilt.</translation>
    </message>
    <message>
        <source>&quot;{unit}&quot; is not a unit of length. Use one of: {units}.</source>
        <translation>„{unit}“ ist keine Längeneinheit. Eine verwenden von: {units}.</translation>
    </message>
    <message>
        <source>&quot;{unit}&quot; measures {is_}, &quot;{to}&quot; {other}. Choose two units of one kind.</source>
        <translation>„{unit}“ misst {is_}, „{to}“ {other}. Zwei Einheiten einer Art wählen.</translation>
    </message>
    <message>
        <source>&amp;Above the ground</source>
        <translation>Über dem Bo&amp;den</translation>
    </message>
    <message>
        <source>&amp;Accept</source>
        <translation>Ü&amp;bernehmen</translation>
    </message>
    <message>
        <source>&amp;Against</source>
        <translation>&amp;Gegen</translation>
    </message>
    <message>
        <source>&amp;Back to the list</source>
        <translation>&amp;Zurück zur Liste</translation>
    </message>
    <message>
        <source>&amp;Check</source>
        <translation>&amp;Prüfen</translation>
    </message>
    <message>
        <source>&amp;Clear</source>
        <translation>Lee&amp;ren</translation>
    </message>
    <message>
        <source>&amp;Click two places</source>
        <translation>Zwei Stellen an&amp;klicken</translation>
    </message>
    <message>
        <source>&amp;Contours every</source>
        <translation>&amp;Höhenlinien alle</translation>
    </message>
    <message>
        <source>&amp;Copy</source>
        <translation>&amp;Kopieren</translation>
    </message>
    <message>
        <source>&amp;Draw a line</source>
        <translation>Linie z&amp;eichnen</translation>
    </message>
    <message>
        <source>&amp;Enlarge</source>
        <translation>Ver&amp;größern</translation>
    </message>
    <message>
        <source>&amp;Forecast</source>
        <translation>&amp;Vorhersagen</translation>
    </message>
    <message>
        <source>&amp;Formula</source>
        <translation>&amp;Formel</translation>
    </message>
    <message>
        <source>&amp;Held against</source>
        <translation>&amp;Verglichen mit</translation>
    </message>
    <message>
        <source>&amp;Inside</source>
        <translation>&amp;Innerhalb</translation>
    </message>
    <message>
        <source>&amp;Its CRS</source>
        <translation>&amp;Ihr KBS</translation>
    </message>
    <message>
        <source>&amp;Level</source>
        <translation>&amp;Höhe</translation>
    </message>
    <message>
        <source>&amp;Limits</source>
        <translation>&amp;Grenzwerte</translation>
    </message>
    <message>
        <source>&amp;Logs</source>
        <translation>&amp;Protokolle</translation>
    </message>
    <message>
        <source>&amp;Measure</source>
        <translation>&amp;Messen</translation>
    </message>
    <message>
        <source>&amp;More</source>
        <translation>&amp;Mehr</translation>
    </message>
    <message>
        <source>&amp;New job...</source>
        <translation>&amp;Neue Arbeit...</translation>
    </message>
    <message>
        <source>&amp;New plan</source>
        <translation>Neuer &amp;Plan</translation>
    </message>
    <message>
        <source>&amp;Open survey...</source>
        <translation>Aufmaß ö&amp;ffnen...</translation>
    </message>
    <message>
        <source>&amp;Pick on the map</source>
        <translation>Auf der &amp;Karte abgreifen</translation>
    </message>
    <message>
        <source>&amp;Point at the map</source>
        <translation>A&amp;uf die Karte zeigen</translation>
    </message>
    <message>
        <source>&amp;Run again</source>
        <translation>Noch einmal &amp;starten</translation>
    </message>
    <message>
        <source>&amp;Stations behind it</source>
        <translation>Standpunkte &amp;dahinter</translation>
    </message>
    <message>
        <source>&amp;Stations behind it ({n})</source>
        <translation>Standpunkte &amp;dahinter ({n})</translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation>&amp;Anhalten</translation>
    </message>
    <message>
        <source>&amp;Surface</source>
        <translation>&amp;Oberfläche</translation>
    </message>
    <message>
        <source>&amp;Surface as it is</source>
        <translation>&amp;Oberfläche, wie sie ist</translation>
    </message>
    <message>
        <source>&amp;Survey it</source>
        <translation>A&amp;ufmessen</translation>
    </message>
    <message>
        <source>&amp;Table</source>
        <translation>&amp;Tabelle</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Rückgängig</translation>
    </message>
    <message>
        <source>(95 %)</source>
        <translation>(95 %)</translation>
    </message>
    <message>
        <source>({x:.3f}, {y:.3f}) is no place on the earth in the layer&apos;s CRS.</source>
        <translation>({x:.3f}, {y:.3f}) ist im KBS des Layers kein Ort auf der Erde.</translation>
    </message>
    <message>
        <source>0 for any amount.</source>
        <translation>0 für jede Menge.</translation>
    </message>
    <message>
        <source>0 for no mesh.</source>
        <translation>0 für keine Matten.</translation>
    </message>
    <message>
        <source>0 for no turf.</source>
        <translation>0 für keinen Rollrasen.</translation>
    </message>
    <message>
        <source>0.9: a cubic metre in the bank is 0.9 rolled in.</source>
        <translation>0,9: ein Kubikmeter gewachsener Boden ist eingewalzt 0,9.</translation>
    </message>
    <message>
        <source>1 in {n} down</source>
        <translation>1 : {n} fallend</translation>
    </message>
    <message>
        <source>1 in {n} up</source>
        <translation>1 : {n} steigend</translation>
    </message>
    <message>
        <source>1 in {run}</source>
        <translation>1 : {run}</translation>
    </message>
    <message>
        <source>1, as picked (solid)</source>
        <translation>1, wie abgegriffen (durchgezogen)</translation>
    </message>
    <message>
        <source>1.3: a cubic metre in the bank is 1.3 on the lorry.</source>
        <translation>1,3: ein Kubikmeter gewachsener Boden ist auf dem LKW 1,3.</translation>
    </message>
    <message>
        <source>10 mm is common practice, no source. Tighter curves need radius units.</source>
        <translation>10 mm sind übliche Praxis, ohne Quelle. Engere Kurven brauchen Radiensteine.</translation>
    </message>
    <message>
        <source>12 by BS 5837:2012, from memory.</source>
        <translation>12 nach BS 5837:2012, aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>15 by BS 5837:2012, from memory; 0 for none.</source>
        <translation>15 nach BS 5837:2012, aus dem Gedächtnis; 0 für keine.</translation>
    </message>
    <message>
        <source>19 of 20 stay below (95 %)</source>
        <translation>19 von 20 bleiben darunter (95 %)</translation>
    </message>
    <message>
        <source>2, turned by half (dashed)</source>
        <translation>2, um eine halbe Drehung gedreht (gestrichelt)</translation>
    </message>
    <message>
        <source>24 to 30 is common practice, no source; 0 for no joints. No bay is longer than 1.5 times its width.</source>
        <translation>24 bis 30 sind übliche Praxis, ohne Quelle; 0 für keine Fugen. Kein Feld ist länger als das 1,5-Fache seiner Breite.</translation>
    </message>
    <message>
        <source>3 % is common practice, no source.</source>
        <translation>3 % sind übliche Praxis, ohne Quelle.</translation>
    </message>
    <message>
        <source>35 for a new lawn: common practice, no source.</source>
        <translation>35 für einen neuen Rasen: übliche Praxis, ohne Quelle.</translation>
    </message>
    <message>
        <source>6 m is common practice, no source.</source>
        <translation>6 m sind übliche Praxis, ohne Quelle.</translation>
    </message>
    <message>
        <source>95 %</source>
        <translation>95 %</translation>
    </message>
    <message>
        <source>95 %, m</source>
        <translation>95 %, m</translation>
    </message>
    <message>
        <source>95 %, share</source>
        <translation>95 %, Anteil</translation>
    </message>
    <message>
        <source>; on {left:.2f} {unit} one of the two is missing</source>
        <translation>; auf {left:.2f} {unit} fehlt eine der beiden</translation>
    </message>
    <message>
        <source>; worst point {size} (95 %), in {name}</source>
        <translation>; schlechtester Punkt {size} (95 %), in {name}</translation>
    </message>
    <message>
        <source>; worst {mark}, {size}</source>
        <translation>; schlechtester {mark}, {size}</translation>
    </message>
    <message>
        <source>; {n} without a figure</source>
        <translation>; {n} ohne Maß</translation>
    </message>
    <message>
        <source>; {walk} closes to {size}, expected below {expected} (95 %)</source>
        <translation>; {walk} schließt auf {size}, erwartet unter {expected} (95 %)</translation>
    </message>
    <message>
        <source>; {weak} of {count} triangles are weak</source>
        <translation>; {weak} von {count} Dreiecken sind schwach</translation>
    </message>
    <message>
        <source>A band {width} m wide with a lap of {lap} m covers nothing. Give a smaller lap.</source>
        <translation>Eine Bahn von {width} m Breite mit einer Überlappung von {lap} m deckt nichts. Eine kleinere Überlappung angeben.</translation>
    </message>
    <message>
        <source>A baseline needs two different points. Draw it from one place to another.</source>
        <translation>Eine Achse braucht zwei verschiedene Punkte. Sie von einem Ort zu einem anderen zeichnen.</translation>
    </message>
    <message>
        <source>A bed is set back with the library {library}.</source>
        <translation>Ein Beet wird mit der Bibliothek {library} zurückgesetzt.</translation>
    </message>
    <message>
        <source>A breakline from {east:.3f}, {north:.3f} to {to_east:.3f}, {to_north:.3f} in the survey plane cannot be put in. Merge points within a larger distance, or leave out what lies too close to it.</source>
        <translation>Eine Bruchkante von {east:.3f}, {north:.3f} nach {to_east:.3f}, {to_north:.3f} in der Aufmaßebene lässt sich nicht einsetzen. Punkte in einem größeren Abstand zusammenlegen oder weglassen, was ihr zu nahe liegt.</translation>
    </message>
    <message>
        <source>A direction for each row, in place of the one above.</source>
        <translation>Eine Richtung für jede Zeile, statt der obigen.</translation>
    </message>
    <message>
        <source>A fall needs three points with heights; there are {count}. Give more.</source>
        <translation>Ein Gefälle braucht drei Punkte mit Höhen; es sind {count}. Mehr angeben.</translation>
    </message>
    <message>
        <source>A figure that a phone recorded and that is less certain is kept out (SR-01).</source>
        <translation>Ein Maß, das ein Telefon aufgenommen hat und das unsicherer ist, wird zurückgehalten (SR-01).</translation>
    </message>
    <message>
        <source>A fit needs two different points at least; there are {count}.</source>
        <translation>Eine Einpassung braucht mindestens zwei verschiedene Punkte; es sind {count}.</translation>
    </message>
    <message>
        <source>A full circle ends at its first station again. Wrong passing point? Correct the log, or accept it.</source>
        <translation>Ein Vollkreis endet wieder an seinem ersten Standpunkt. Falscher Durchgangspunkt? Das Protokoll berichtigen oder annehmen.</translation>
    </message>
    <message>
        <source>A full circle needs two `curve` stations or more between its first station and the `curve-end` at the same place: walk it again with two.</source>
        <translation>Ein Vollkreis braucht zwei `curve`-Standpunkte oder mehr zwischen seinem ersten Standpunkt und dem `curve-end` an derselben Stelle: mit zweien neu begehen.</translation>
    </message>
    <message>
        <source>A height in the surface&apos;s datum.</source>
        <translation>Eine Höhe im Höhenbezugssystem der Oberfläche.</translation>
    </message>
    <message>
        <source>A hundred times rise by run.</source>
        <translation>Hundertmal Höhe durch Länge.</translation>
    </message>
    <message>
        <source>A job has one control file: untick the other, or put all marks into one.</source>
        <translation>Eine Arbeit hat eine Passpunktdatei: die andere abwählen oder alle Festpunkte in eine schreiben.</translation>
    </message>
    <message>
        <source>A job has one control file: untick the other.</source>
        <translation>Eine Arbeit hat eine Passpunktdatei: die andere abwählen.</translation>
    </message>
    <message>
        <source>A lawn&apos;s edge is no line: this is how far to one side it may have been taken all along, one sigma (20 to 50 mm for turf: common practice, no source). It comes back in a column of its own, area_m2_edge_sigma, as this times the length of all edges.</source>
        <translation>Der Rand eines Rasens ist keine Linie: dies ist, wie weit er ringsum nach einer Seite angenommen sein kann, eine Standardabweichung (20 bis 50 mm bei Rasen: übliche Praxis, ohne Quelle). Es kommt in einer eigenen Spalte area_m2_edge_sigma zurück, als dies mal die Länge aller Kanten.</translation>
    </message>
    <message>
        <source>A layer of three points with heights (z), or the three selected in it.</source>
        <translation>Ein Layer aus drei Punkten mit Höhen (z), oder die drei darin gewählten.</translation>
    </message>
    <message>
        <source>A layer of triangles with heights, or a mesh, that inverts are held against; without it the line&apos;s own heights.</source>
        <translation>Ein Layer aus Dreiecken mit Höhen, oder ein Netz, mit dem Sohlhöhen verglichen werden; ohne ihn gelten die eigenen Höhen der Linie.</translation>
    </message>
    <message>
        <source>A layer of triangles with heights, or a mesh.</source>
        <translation>Ein Layer aus Dreiecken mit Höhen, oder ein Netz.</translation>
    </message>
    <message>
        <source>A layer of triangles with heights, or a mesh. It goes before the level and the thickness above.</source>
        <translation>Ein Layer aus Dreiecken mit Höhen, oder ein Netz. Er geht der Höhe und der Dicke oben vor.</translation>
    </message>
    <message>
        <source>A level at {place} is off the breakline {line} that it lies on by {off:.3f} m, more than three times what they are worth.</source>
        <translation>Eine Höhe bei {place} weicht um {off:.3f} m von der Bruchkante {line} ab, auf der sie liegt, mehr als das Dreifache dessen, was sie wert sind.</translation>
    </message>
    <message>
        <source>A level runs evenly along an edge between its two stations; its 95 % is from theirs, taken to err together. A rise takes the two levels to err apart, which is too much where both hang on one datum.</source>
        <translation>Eine Höhe läuft entlang einer Kante gleichmäßig zwischen ihren zwei Standpunkten; ihre 95 % kommen von deren, die als gemeinsam irrend gelten. Ein Höhenunterschied nimmt die zwei Höhen als getrennt irrend, was zu viel ist, wo beide an einem Höhenbezugssystem hängen.</translation>
    </message>
    <message>
        <source>A line cannot cross points. Choose a layer of lines or polygons as the features.</source>
        <translation>Eine Linie kann keine Punkte kreuzen. Einen Layer aus Linien oder Polygonen als Objekte wählen.</translation>
    </message>
    <message>
        <source>A load is {load}. Give a number above 0.</source>
        <translation>Eine Fuhre ist {load}. Eine Zahl größer als 0 angeben.</translation>
    </message>
    <message>
        <source>A load, cubic metres loose</source>
        <translation>Eine Fuhre, Kubikmeter lose</translation>
    </message>
    <message>
        <source>A load, tonnes</source>
        <translation>Eine Fuhre, Tonnen</translation>
    </message>
    <message>
        <source>A mark has no name. Give each a name of its own.</source>
        <translation>Ein Festpunkt hat keinen Namen. Jedem einen eigenen Namen geben.</translation>
    </message>
    <message>
        <source>A name is one line of {most} letters at the most; &quot;{name}&quot; is none. Give a shorter one.</source>
        <translation>Ein Name ist eine Zeile von höchstens {most} Buchstaben; „{name}“ ist keiner. Einen kürzeren angeben.</translation>
    </message>
    <message>
        <source>A new plan: set two marks at least, then draw the walk over them.</source>
        <translation>Ein neuer Plan: mindestens zwei Festpunkte setzen, dann die Begehung darüber zeichnen.</translation>
    </message>
    <message>
        <source>A one-sigma of {sigma} m is none. Give metres, 0 or more.</source>
        <translation>Eine Standardabweichung von {sigma} m ist keine. Meter angeben, 0 oder mehr.</translation>
    </message>
    <message>
        <source>A pixel of {pixel} m and an accuracy of {accuracy} m are no sizes. Give both as 0 or more.</source>
        <translation>Ein Pixel von {pixel} m und eine Genauigkeit von {accuracy} m sind keine Größen. Beide mit 0 oder mehr angeben.</translation>
    </message>
    <message>
        <source>A plane goes through three points with heights; the layer holds {count}, {good} of them with a height. Select three.</source>
        <translation>Eine Ebene geht durch drei Punkte mit Höhen; der Layer enthält {count}, davon {good} mit einer Höhe. Drei wählen.</translation>
    </message>
    <message>
        <source>A plane goes through three points with heights; {count} were given. Give east, north and height of three.</source>
        <translation>Eine Ebene geht durch drei Punkte mit Höhen; angegeben sind {count}. Ost, Nord und Höhe von dreien angeben.</translation>
    </message>
    <message>
        <source>A point at {east:.3f}, {north:.3f} in the survey plane lies too near to others for a site of this size. Merge points within a larger distance, or build the surface in parts.</source>
        <translation>Ein Punkt bei {east:.3f}, {north:.3f} in der Aufmaßebene liegt für ein Gelände dieser Größe zu nah an anderen. Punkte in einem größeren Abstand zusammenlegen oder die Oberfläche in Teilen bilden.</translation>
    </message>
    <message>
        <source>A point has no place or no height, so that its fall is not known. Give it one.</source>
        <translation>Ein Punkt hat keinen Ort oder keine Höhe; sein Gefälle ist nicht bekannt. Ihm beides geben.</translation>
    </message>
    <message>
        <source>A point of the line has no place. Draw it again.</source>
        <translation>Ein Punkt der Linie hat keinen Ort. Sie neu zeichnen.</translation>
    </message>
    <message>
        <source>A point of the section&apos;s line has no place. Draw the line again.</source>
        <translation>Ein Punkt der Schnittlinie hat keinen Ort. Die Linie neu zeichnen.</translation>
    </message>
    <message>
        <source>A point of the surface has no place or no height. Build it again without it.</source>
        <translation>Ein Punkt der Oberfläche hat keinen Ort oder keine Höhe. Sie ohne ihn neu bilden.</translation>
    </message>
    <message>
        <source>A point of the surface has no place or no height. Build the surface again without it.</source>
        <translation>Ein Punkt der Oberfläche hat keinen Ort oder keine Höhe. Die Oberfläche ohne ihn neu bilden.</translation>
    </message>
    <message>
        <source>A point&apos;s height ±{half:.3f} {unit} (95 %)</source>
        <translation>Höhe eines Punkts ±{half:.3f} {unit} (95 %)</translation>
    </message>
    <message>
        <source>A projected CRS. What is measured stays true to the ground in any of them.</source>
        <translation>Ein projiziertes KBS. Was gemessen wird, bleibt in jedem wahr am Boden.</translation>
    </message>
    <message>
        <source>A ramp walked as an area is not checked here: give its middle line under Ramps, with a surface.</source>
        <translation>Eine als Fläche begangene Rampe wird hier nicht geprüft: ihre Mittellinie unter „Rampen“ angeben, mit einer Oberfläche.</translation>
    </message>
    <message>
        <source>A residual has no uncertainty of its own: it shows how well the map points fit the survey.</source>
        <translation>Eine Restklaffe hat keine eigene Unsicherheit: sie zeigt, wie gut die Passpunkte zum Aufmaß passen.</translation>
    </message>
    <message>
        <source>A ring is open by {gap:.3f} m.</source>
        <translation>Ein Ring ist um {gap:.3f} m offen.</translation>
    </message>
    <message>
        <source>A ring lies on one line, so it has no area.</source>
        <translation>Ein Ring liegt auf einer Geraden und hat keine Fläche.</translation>
    </message>
    <message>
        <source>A round bottom {width:.3f} m wide is at most half as deep, and it is {depth:.3f} m. Choose another form, or correct width or depth.</source>
        <translation>Eine runde Sohle von {width:.3f} m Breite ist höchstens halb so tief, und sie ist {depth:.3f} m tief. Eine andere Form wählen oder Breite oder Tiefe berichtigen.</translation>
    </message>
    <message>
        <source>A row of figures each, voids out; where it is empty, all of the surface is one row.</source>
        <translation>Je eine Zeile mit Maßen, Aussparungen abgezogen; wo es leer ist, ist die ganze Oberfläche eine Zeile.</translation>
    </message>
    <message>
        <source>A second GeoPackage, _chorded, with arcs as chords; its figures are the exact ones.</source>
        <translation>Ein zweites GeoPackage, _chorded, mit Bögen als Sehnen; seine Maße sind die exakten.</translation>
    </message>
    <message>
        <source>A section needs a line of two different points. Draw it from one place to another.</source>
        <translation>Ein Schnitt braucht eine Linie aus zwei verschiedenen Punkten. Sie von einem Ort zu einem anderen zeichnen.</translation>
    </message>
    <message>
        <source>A shapefile keeps ten letters of a column&apos;s name. A GeoPackage (.gpkg) keeps all.</source>
        <translation>Ein Shapefile behält zehn Buchstaben eines Spaltennamens. Ein GeoPackage (.gpkg) behält alle.</translation>
    </message>
    <message>
        <source>A size along the line is no number, or has no place. Give pairs of chainage and size.</source>
        <translation>Eine Größe entlang der Linie ist keine Zahl oder hat keinen Ort. Paare aus Stationierung und Größe angeben.</translation>
    </message>
    <message>
        <source>A size of the planting is below 0, or no seed is alive. Give sizes of 0 or more.</source>
        <translation>Eine Größe der Pflanzung ist kleiner als 0, oder kein Saatgut ist keimfähig. Größen von 0 oder mehr angeben.</translation>
    </message>
    <message>
        <source>A slope of {length:g} m cannot rise {rise:g} m. Check both figures, and their units.</source>
        <translation>Eine Böschung von {length:g} m kann nicht um {rise:g} m steigen. Beide Maße und ihre Einheiten prüfen.</translation>
    </message>
    <message>
        <source>A station stands on a mark within, metres</source>
        <translation>Ein Standpunkt steht auf einem Festpunkt innerhalb von, Meter</translation>
    </message>
    <message>
        <source>A surface has a point without place or height. Build it again.</source>
        <translation>Eine Oberfläche hat einen Punkt ohne Ort oder Höhe. Sie neu bilden.</translation>
    </message>
    <message>
        <source>A surface has no triangles, so there is nothing to measure.</source>
        <translation>Eine Oberfläche hat keine Dreiecke; es gibt nichts zu messen.</translation>
    </message>
    <message>
        <source>A surface needs three points or more that are not in line; {count} are given.</source>
        <translation>Eine Oberfläche braucht drei Punkte oder mehr, die nicht auf einer Geraden liegen; angegeben sind {count}.</translation>
    </message>
    <message>
        <source>A surface needs {library}, which this QGIS lacks. Install it for QGIS&apos;s Python (pip install scipy, or your system&apos;s package python3-scipy), then run this again.</source>
        <translation>Eine Oberfläche braucht {library}, was diesem QGIS fehlt. Für das Python von QGIS installieren (pip install scipy, oder das Paket python3-scipy des Systems), dann noch einmal starten.</translation>
    </message>
    <message>
        <source>A surface of triangles through points of known height, with breaklines as edges of it, inside a boundary and outside voids: from layers of any CRS, or from a survey&apos;s own levels and walked edges.

Surface has a row for each triangle, with its corners as exact numbers and what their heights are worth, so that sections and volumes open the surface again as it was. rough_m is one standard deviation of the ground off the triangles between the points, found by leaving out each point in turn, and reach_m is how far such a departure hangs together; rough_m is empty where too few points stand inside to tell. Triangles with is_weak are far from every point, stand on one line of points, or are slivers of the rim: do not lean on them. Contours are exact, with, higher ground on the left of each, height_m_sigma being what the surface&apos;s height is worth along it and shift_m_sigma how far it may lie to one side. Mesh file is the surface as a mesh.

Points within a millimetre in plan are one. Risers, and a wall&apos;s foot and top over each other (one line, or the parts foot and top of one feature), are built leaning by 2 mm and told. Other breaklines that meet at different heights, by more than three times what they are worth, are refused with place and difference. Boundaries and voids without heights are laid on the ground.

Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation>Eine Oberfläche aus Dreiecken durch Punkte bekannter Höhe, mit Bruchkanten als ihren Kanten, innerhalb einer Begrenzung und außerhalb von Aussparungen: aus Layern in jedem KBS, oder aus den Höhen und begangenen Kanten eines Aufmaßes.

„Oberfläche“ hat eine Zeile für jedes Dreieck, mit seinen Ecken als exakten Zahlen und dem, was deren Höhen wert sind, sodass Schnitte und Volumen die Oberfläche wieder öffnen, wie sie war. rough_m ist eine Standardabweichung des Bodens gegen die Dreiecke zwischen den Punkten, gefunden, indem jeder Punkt der Reihe nach weggelassen wird, und reach_m, wie weit eine solche Abweichung zusammenhängt; rough_m ist leer, wo zu wenige Punkte im Inneren stehen, um es zu sagen. Dreiecke mit is_weak liegen fern von jedem Punkt, stehen auf einer Linie von Punkten oder sind schmale Dreiecke am Rand: auf sie ist kein Verlass. „Höhenlinien“ sind exakt, höherer Boden jeweils links davon; height_m_sigma ist, was die Höhe der Oberfläche entlang der Linie wert ist, und shift_m_sigma, wie weit die Linie nach einer Seite liegen kann. „Netzdatei“ ist die Oberfläche als Netz.

Punkte, die in der Lage näher als ein Millimeter liegen, sind einer. Setzstufen sowie Fuß und Krone einer Mauer übereinander (eine Linie, oder die Teile foot und top eines Objekts) werden um 2 mm geneigt gebildet, und es wird gesagt. Andere Bruchkanten, die in verschiedenen Höhen aufeinandertreffen, um mehr als das Dreifache dessen, was sie wert sind, werden mit Ort und Unterschied abgewiesen. Begrenzungen und Aussparungen ohne Höhen werden auf den Boden gelegt.

Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>A table, but none that is read. Say which column is which, or untick it.</source>
        <translation>Eine Tabelle, aber keine, die gelesen wird. Sagen, welche Spalte welche ist, oder abwählen.</translation>
    </message>
    <message>
        <source>A third shared mark off the line of the others would; the picture shows it too.</source>
        <translation>Ein dritter gemeinsamer Festpunkt abseits der Linie der anderen täte es; auch das Bild zeigt es.</translation>
    </message>
    <message>
        <source>A triangle has a corner without a height. Choose a layer with heights (z).</source>
        <translation>Ein Dreieck hat eine Ecke ohne Höhe. Einen Layer mit Höhen (z) wählen.</translation>
    </message>
    <message>
        <source>A unit is {unit} m long and may sag {sag} m. Give both above 0.</source>
        <translation>Ein Stein ist {unit} m lang und darf {sag} m Stich haben. Beide größer als 0 angeben.</translation>
    </message>
    <message>
        <source>A vertex of a planned line has no place. Draw it again.</source>
        <translation>Ein Stützpunkt einer geplanten Linie hat keinen Ort. Sie neu zeichnen.</translation>
    </message>
    <message>
        <source>A vertex of {layer} lies outside what its CRS can hold. Check the layer&apos;s CRS, and mend the row.</source>
        <translation>Ein Stützpunkt von {layer} liegt außerhalb dessen, was das KBS fassen kann. Das KBS des Layers prüfen und die Zeile berichtigen.</translation>
    </message>
    <message>
        <source>A volume from end areas needs two sections or more, in the order of their chainages.</source>
        <translation>Ein Volumen aus Querschnittsflächen braucht zwei Schnitte oder mehr, nach ihrer Stationierung geordnet.</translation>
    </message>
    <message>
        <source>A way cannot be {width:g} m wide. Give its width in metres, or 0 where it is not known.</source>
        <translation>Ein Weg kann nicht {width:g} m breit sein. Seine Breite in Metern angeben, oder 0, wo sie nicht bekannt ist.</translation>
    </message>
    <message>
        <source>A whole circle is drawn as one arc, whose plane is unknown. Draw it as two arcs.</source>
        <translation>Ein ganzer Kreis ist als ein Bogen gezeichnet, dessen Ebene unbekannt ist. Ihn als zwei Bögen zeichnen.</translation>
    </message>
    <message>
        <source>A&amp;dd files...</source>
        <translation>&amp;Dateien hinzufügen...</translation>
    </message>
    <message>
        <source>ASSUMED: nothing states what the points are worth, so a default stands for it.</source>
        <translation>ANGENOMMEN: nichts sagt, was die Punkte wert sind; eine Voreinstellung steht dafür.</translation>
    </message>
    <message>
        <source>ASSUMED: somebody stated what its points are worth; nothing in a layer tells it.</source>
        <translation>ANGENOMMEN: jemand hat angegeben, was die Punkte wert sind; nichts in einem Layer sagt es.</translation>
    </message>
    <message>
        <source>About its line</source>
        <translation>Mittig auf ihrer Linie</translation>
    </message>
    <message>
        <source>Accept this placement</source>
        <translation>Diese Einpassung übernehmen</translation>
    </message>
    <message>
        <source>Add a level mark to the control, or take the heights as relative.</source>
        <translation>Den Passpunkten einen Höhenfestpunkt hinzufügen oder die Höhen als relativ nehmen.</translation>
    </message>
    <message>
        <source>Add a mark far out, and stand on it in two walks.</source>
        <translation>Weit draußen einen Festpunkt hinzufügen und in zwei Begehungen darauf stehen.</translation>
    </message>
    <message>
        <source>Add a pass station on such legs, or accept a larger uncertainty.</source>
        <translation>Auf solchen Strecken einen Durchgangspunkt einfügen oder eine größere Unsicherheit annehmen.</translation>
    </message>
    <message>
        <source>Add a passing point nearer the middle of the curve; else it is drawn straight.</source>
        <translation>Einen Durchgangspunkt näher an der Mitte der Kurve hinzufügen; sonst wird sie gerade gezeichnet.</translation>
    </message>
    <message>
        <source>Add a passing point with leg `curve`; else it is drawn straight.</source>
        <translation>Einen Durchgangspunkt mit leg `curve` hinzufügen; sonst wird sie gerade gezeichnet.</translation>
    </message>
    <message>
        <source>Add points, or delete the row.</source>
        <translation>Punkte hinzufügen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>Add the piece that is missing to the file.</source>
        <translation>Das fehlende Stück in der Datei ergänzen.</translation>
    </message>
    <message>
        <source>Add the row, or correct the name.</source>
        <translation>Die Zeile hinzufügen oder den Namen berichtigen.</translation>
    </message>
    <message>
        <source>Adjust walks</source>
        <translation>Begehungen ausgleichen</translation>
    </message>
    <message>
        <source>Adjusted and placed: x {x} east, y {y} north in the survey plane.</source>
        <translation>Ausgeglichen und eingepasst: x {x} Ost, y {y} Nord in der Aufmaßebene.</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Nachher</translation>
    </message>
    <message>
        <source>Against</source>
        <translation>Gegen</translation>
    </message>
    <message>
        <source>All</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>All heights differ by {shift:+.3f} m, more than both account for. Either the ground was raised or lowered all over, or one of the two hangs on another bench mark: this comparison cannot tell which. The row has the volume of both: {without:.2f} m3 without the step, {whole:.2f} m3 with it. Check the level marks and the datums.</source>
        <translation>Alle Höhen weichen um {shift:+.3f} m ab, mehr als beide erklären. Entweder wurde der Boden überall angehoben oder abgesenkt, oder eines von beiden hängt an einem anderen Höhenfestpunkt: dieser Vergleich kann nicht sagen, was davon. Die Zeile hat das Volumen von beidem: {without:.2f} m3 ohne den Sprung, {whole:.2f} m3 mit ihm. Die Höhenfestpunkte und die Höhenbezugssysteme prüfen.</translation>
    </message>
    <message>
        <source>All heights differ by {shift:+.3f} m, more than both account for. This is taken off, and is no change of the ground. Check the level marks and the datums.</source>
        <translation>Alle Höhen weichen um {shift:+.3f} m ab, mehr als beide erklären. Das wird abgezogen und ist keine Änderung des Bodens. Die Höhenfestpunkte und die Höhenbezugssysteme prüfen.</translation>
    </message>
    <message>
        <source>All points lie on one line, so there is no surface between them. Add points beside it.</source>
        <translation>Alle Punkte liegen auf einer Geraden; zwischen ihnen ist keine Oberfläche. Punkte daneben hinzufügen.</translation>
    </message>
    <message>
        <source>Along the outer edge; 0 for none. Forms are as much higher.</source>
        <translation>Entlang dem äußeren Rand; 0 für keine. Schalungen sind um so viel höher.</translation>
    </message>
    <message>
        <source>Along the slope.</source>
        <translation>In der Neigung.</translation>
    </message>
    <message>
        <source>Along the wall&apos;s centre.</source>
        <translation>Entlang der Mitte der Mauer.</translation>
    </message>
    <message>
        <source>Also write a copy without curves</source>
        <translation>Auch eine Kopie ohne Bögen schreiben</translation>
    </message>
    <message>
        <source>An arc needs two ends apart and points between them, apart from both.</source>
        <translation>Ein Bogen braucht zwei getrennte Enden und Punkte dazwischen, abseits von beiden.</translation>
    </message>
    <message>
        <source>An edge at {x:.3f}, {y:.3f} has no room for {by:.3f} m past the outline. Give a smaller extra, or draw the outline simpler there.</source>
        <translation>Eine Kante bei {x:.3f}, {y:.3f} hat keinen Platz für {by:.3f} m über den Umriss hinaus. Einen kleineren Überstand angeben oder den Umriss dort einfacher zeichnen.</translation>
    </message>
    <message>
        <source>An edge goes once round. Draw it as two arcs.</source>
        <translation>Eine Kante läuft einmal im Kreis. Sie als zwei Bögen zeichnen.</translation>
    </message>
    <message>
        <source>An edge of the face has no length. Draw it from end to end.</source>
        <translation>Eine Kante der Ansichtsfläche hat keine Länge. Sie von Ende zu Ende zeichnen.</translation>
    </message>
    <message>
        <source>An edge of the outline goes once round. Draw it as two arcs.</source>
        <translation>Eine Kante des Umrisses läuft einmal im Kreis. Sie als zwei Bögen zeichnen.</translation>
    </message>
    <message>
        <source>An edge of the ramp is closed: it ends where it starts, and rises by nothing. Draw both from end to end of the ramp, or a line along its middle alone.</source>
        <translation>Eine Kante der Rampe ist geschlossen: sie endet, wo sie beginnt, und steigt um nichts. Beide von einem Ende der Rampe zum anderen zeichnen, oder nur eine Linie in ihrer Mitte.</translation>
    </message>
    <message>
        <source>An entry for each file, with semicolons between: points.csv: EPSG:25831; yard.csv: none. None: its coordinates are in a plane of their own. Other files keep theirs, and the files are not changed.</source>
        <translation>Je Datei ein Eintrag, durch Semikolons getrennt: points.csv: EPSG:25831; yard.csv: none. None: ihre Koordinaten liegen in einer eigenen Ebene. Andere Dateien behalten das ihre, und keine Datei wird geändert.</translation>
    </message>
    <message>
        <source>An entry for each file, with semicolons between: yard.csv: us-ft; tapes.csv: ft. The units are m, ft, us-ft, in, cm, mm. Other files keep theirs, and the files are not changed.</source>
        <translation>Je Datei ein Eintrag, durch Semikolons getrennt: yard.csv: us-ft; tapes.csv: ft. Die Einheiten sind m, ft, us-ft, in, cm, mm. Andere Dateien behalten die ihren, und keine Datei wird geändert.</translation>
    </message>
    <message>
        <source>An interval of {interval:g} m along a baseline of {length:.3f} m cannot be stationed. Give one that makes no more than {most} stations.</source>
        <translation>Ein Abstand von {interval:g} m entlang einer Achse von {length:.3f} m lässt sich nicht stationieren. Einen angeben, der nicht mehr als {most} Stationen ergibt.</translation>
    </message>
    <message>
        <source>An open stop keeps the heights out: see the findings.</source>
        <translation>Eine offene Sperre hält die Höhen zurück: siehe die Befunde.</translation>
    </message>
    <message>
        <source>An order of {net} with waste {waste}, step {step} and minimum {minimum} has no meaning. Give each as 0 or more.</source>
        <translation>Eine Bestellung von {net} mit Verlust {waste}, Schritt {step} und Mindestmenge {minimum} hat keinen Sinn. Jedes mit 0 oder mehr angeben.</translation>
    </message>
    <message>
        <source>An outline crosses itself or another of its rings near {east:.3f}, {north:.3f} from the middle of the surface, metres. Draw it again.</source>
        <translation>Ein Umriss kreuzt sich selbst oder einen anderen seiner Ringe nahe {east:.3f}, {north:.3f} von der Mitte der Oberfläche, Meter. Neu zeichnen.</translation>
    </message>
    <message>
        <source>An outline encloses no ground. Draw it round what is to be measured.</source>
        <translation>Ein Umriss umschließt keinen Boden. Ihn um das zeichnen, was gemessen werden soll.</translation>
    </message>
    <message>
        <source>An outline has a corner without a place. Draw it again.</source>
        <translation>Ein Umriss hat eine Ecke ohne Ort. Neu zeichnen.</translation>
    </message>
    <message>
        <source>An outline is widened with the library {library}.</source>
        <translation>Ein Umriss wird mit der Bibliothek {library} erweitert.</translation>
    </message>
    <message>
        <source>An outline of {corners} corners has too many edges side by side to be filled. Draw it simpler, or split it.</source>
        <translation>Ein Umriss mit {corners} Ecken hat zu viele Kanten nebeneinander, um gefüllt zu werden. Einfacher zeichnen oder teilen.</translation>
    </message>
    <message>
        <source>An outline that is to reach {by} m past its edge is closed, and that is 0 or more.</source>
        <translation>Ein Umriss, der {by} m über seinen Rand hinausreichen soll, ist geschlossen, und das Maß ist 0 oder mehr.</translation>
    </message>
    <message>
        <source>An outline that lies farther off any plane is refused.</source>
        <translation>Ein Umriss, der weiter von jeder Ebene abliegt, wird abgewiesen.</translation>
    </message>
    <message>
        <source>An upright face of the breakline {line} at {place}, {low:.3f} to {high:.3f} m, is built leaning: its foot stands {off:.4f} m off its top in plan.</source>
        <translation>Eine senkrechte Fläche der Bruchkante {line} bei {place}, {low:.3f} bis {high:.3f} m, wird geneigt gebildet: ihr Fuß steht in der Lage {off:.4f} m neben ihrer Krone.</translation>
    </message>
    <message>
        <source>An upright face of the breakline {line} was drawn {shift:.3f} m off the edge at {place} that it stands on; it is put there, {low:.3f} to {high:.3f} m, and built leaning: its foot stands {off:.4f} m off its top in plan.</source>
        <translation>Eine senkrechte Fläche der Bruchkante {line} war {shift:.3f} m neben der Kante bei {place} gezeichnet, auf der sie steht; sie wird dorthin gesetzt, {low:.3f} bis {high:.3f} m, und geneigt gebildet: ihr Fuß steht in der Lage {off:.4f} m neben ihrer Krone.</translation>
    </message>
    <message>
        <source>Answer</source>
        <translation>Antwort</translation>
    </message>
    <message>
        <source>Answer area (an outline was walked: it is closed and measured) or length (a way).</source>
        <translation>Mit area (ein Umriss wurde begangen: er wird geschlossen und gemessen) oder length (ein Weg) antworten.</translation>
    </message>
    <message>
        <source>Answer its findings in the decisions file and run the survey again.</source>
        <translation>Dessen Befunde in der Entscheidungsdatei beantworten und das Aufmaß neu rechnen.</translation>
    </message>
    <message>
        <source>Answer join (one edge for both: {one} changes by {change:+.3f} m, {other} by {other_change:+.3f} m2) or leave (two edges, as walked).</source>
        <translation>Mit join (eine Kante für beide: {one} ändert sich um {change:+.3f} m, {other} um {other_change:+.3f} m2) oder leave (zwei Kanten, wie begangen) antworten.</translation>
    </message>
    <message>
        <source>Answer join (one edge for both: {one} changes by {change:+.3f} m2, {other} by {other_change:+.3f} m) or leave (two edges, as walked).</source>
        <translation>Mit join (eine Kante für beide: {one} ändert sich um {change:+.3f} m2, {other} um {other_change:+.3f} m) oder leave (zwei Kanten, wie begangen) antworten.</translation>
    </message>
    <message>
        <source>Answer join (one edge for both: {one} changes by {change:+.3f} m2, {other} by {other_change:+.3f} m2) or leave (two edges, as walked).</source>
        <translation>Mit join (eine Kante für beide: {one} ändert sich um {change:+.3f} m2, {other} um {other_change:+.3f} m2) oder leave (zwei Kanten, wie begangen) antworten.</translation>
    </message>
    <message>
        <source>Answer leave to one of the asks GE-02 that it stands in, or correct the log there.</source>
        <translation>Eine der Fragen GE-02, in denen er steht, mit leave beantworten oder dort das Protokoll berichtigen.</translation>
    </message>
    <message>
        <source>Answer one (one shape walked in two goes), two (two shapes) or replace (the same ground again: the older go stays in the file without figures), or name the part in the log.</source>
        <translation>Mit one (eine Form, in zwei Gängen begangen), two (zwei Formen) oder replace (derselbe Boden noch einmal: der ältere Gang bleibt ohne Maße in der Datei) antworten, oder im Protokoll den Teil nennen.</translation>
    </message>
    <message>
        <source>Answer reverse (stations {b} to {c} in reverse order give {reversed_area:.3f} m2) or split (two parts there, of {part_1:.3f} and {part_2:.3f} m2), or correct the log.</source>
        <translation>Mit reverse (die Standpunkte {b} bis {c} in umgekehrter Folge ergeben {reversed_area:.3f} m2) oder split (dort zwei Teile von {part_1:.3f} und {part_2:.3f} m2) antworten oder das Protokoll berichtigen.</translation>
    </message>
    <message>
        <source>Answer reverse (stations {b} to {c} in reverse order give {reversed_area:.3f} m2), split (two parts there, of {part_1:.3f} and {part_2:.3f} m2) or drop (without station {dropped} it has {dropped_area:.3f} m2), or correct the log.</source>
        <translation>Mit reverse (die Standpunkte {b} bis {c} in umgekehrter Folge ergeben {reversed_area:.3f} m2), split (dort zwei Teile von {part_1:.3f} und {part_2:.3f} m2) oder drop (ohne Standpunkt {dropped} sind es {dropped_area:.3f} m2) antworten oder das Protokoll berichtigen.</translation>
    </message>
    <message>
        <source>Answer split (two parts there, of {part_1:.3f} and {part_2:.3f} m2), or correct the log.</source>
        <translation>Mit split antworten (dort zwei Teile von {part_1:.3f} und {part_2:.3f} m2) oder das Protokoll berichtigen.</translation>
    </message>
    <message>
        <source>Answers to findings of an earlier run.</source>
        <translation>Antworten auf Befunde eines früheren Laufs.</translation>
    </message>
    <message>
        <source>Any layer of a survey, or its GeoPackage; or a surface: a layer of triangles with heights, a mesh, or a file of one. Both of one kind.</source>
        <translation>Ein beliebiger Layer eines Aufmaßes oder sein GeoPackage; oder eine Oberfläche: ein Layer mit Dreiecken mit Höhen, ein Netz oder eine Datei davon. Beide von einer Art.</translation>
    </message>
    <message>
        <source>Are these decimal commas? Write points, or separate the columns with semicolons. Else quote a field that holds a comma; the rest of the file was read.</source>
        <translation>Sind das Dezimalkommas? Punkte schreiben oder die Spalten mit Semikolon trennen. Sonst ein Feld, das ein Komma enthält, in Anführungszeichen setzen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Area</source>
        <translation>Fläche</translation>
    </message>
    <message>
        <source>Area = sum over the edges of (x1·y2 - x2·y1) / 2; x, y in metres from the first corner, true to the ground.</source>
        <translation>Fläche = Summe über die Kanten von (x1·y2 - x2·y1) / 2; x, y in Metern von der ersten Ecke, wahr am Boden.</translation>
    </message>
    <message>
        <source>Area in plan</source>
        <translation>Fläche in der Lage</translation>
    </message>
    <message>
        <source>Area on the slope</source>
        <translation>Fläche in der Neigung</translation>
    </message>
    <message>
        <source>Area on the slope = area in plan · √(1 + fall²), on the plane nearest to its heights: {area} · {factor}.</source>
        <translation>Fläche in der Neigung = Fläche in der Lage · √(1 + Gefälle²), in der Ebene, die den Höhen am nächsten kommt: {area} · {factor}.</translation>
    </message>
    <message>
        <source>Area on the slope = area in plan · √(1 + fall²), on the plane nearest to the heights.</source>
        <translation>Fläche in der Neigung = Fläche in der Lage · √(1 + Gefälle²), in der Ebene, die den Höhen am nächsten kommt.</translation>
    </message>
    <message>
        <source>Areas</source>
        <translation>Flächen</translation>
    </message>
    <message>
        <source>Areas and lengths whose crossings are told by name.</source>
        <translation>Flächen und Längen, deren Kreuzungen mit Namen genannt werden.</translation>
    </message>
    <message>
        <source>Areas by slope</source>
        <translation>Flächen nach Neigung</translation>
    </message>
    <message>
        <source>Areas by slope: none are told, for they need a layer of areas and a surface.</source>
        <translation>Flächen nach Neigung: keine werden gemeldet, denn sie brauchen einen Layer von Flächen und eine Oberfläche.</translation>
    </message>
    <message>
        <source>Areas or lines</source>
        <translation>Flächen oder Linien</translation>
    </message>
    <message>
        <source>Areas with falls</source>
        <translation>Flächen mit Gefälle</translation>
    </message>
    <message>
        <source>As high as the wall, behind its back.</source>
        <translation>So hoch wie die Mauer, hinter ihrem Rücken.</translation>
    </message>
    <message>
        <source>As laid; 0 for none.</source>
        <translation>Wie eingebaut; 0 für keinen.</translation>
    </message>
    <message>
        <source>As the maker states it: 0.5 %, or 0.02 m + 0.3 %. Without this and without a file a default is assumed.</source>
        <translation>Wie der Hersteller sie angibt: 0.5 %, oder 0.02 m + 0.3 %. Ohne diese und ohne Datei wird eine Voreinstellung angenommen.</translation>
    </message>
    <message>
        <source>As the names in its first line say.</source>
        <translation>Wie die Namen in der ersten Zeile sagen.</translation>
    </message>
    <message>
        <source>As you chose before.</source>
        <translation>Wie zuvor gewählt.</translation>
    </message>
    <message>
        <source>As-walked edges to straights and arcs: how far a row may lie off, metres</source>
        <translation>Wie gegangene Kanten zu Geraden und Bögen: wie weit eine Zeile abliegen darf, Meter</translation>
    </message>
    <message>
        <source>At 1.5 m above the ground; of several stems their mean. It may come from a field or an expression; of a survey&apos;s spots 0 takes the stem noted on site.</source>
        <translation>1,5 m über dem Boden; bei mehreren Stämmen ihr Mittel. Darf aus einem Feld oder einem Ausdruck kommen; bei den Einzelpunkten eines Aufmaßes nimmt 0 den vor Ort notierten Stamm.</translation>
    </message>
    <message>
        <source>At the foot of a rectangle or a trapezoid, at the top of the others. It may come from a field; of a survey&apos;s lengths 0 takes the width noted on site.</source>
        <translation>Am Fuß eines Rechtecks oder eines Trapezes, oben bei den anderen. Darf aus einem Feld kommen; bei den Längen eines Aufmaßes nimmt 0 die vor Ort notierte Breite.</translation>
    </message>
    <message>
        <source>B&amp;uild from the survey</source>
        <translation>Aus dem Aufmaß &amp;bilden</translation>
    </message>
    <message>
        <source>BANDS: &quot;{word}&quot; is no slope. Write bounds with commas between, as 5 %, as 1:4 or as 0.25.</source>
        <translation>BANDS: „{word}“ ist keine Neigung. Grenzen mit Kommas dazwischen schreiben, als 5 %, als 1:4 oder als 0.25.</translation>
    </message>
    <message>
        <source>Back to the defaults</source>
        <translation>Zurück zu den Voreinstellungen</translation>
    </message>
    <message>
        <source>Bands of slope need one to {most} bounds above 0. Give them as percent, as ratios, or as 1:n.</source>
        <translation>Neigungsklassen brauchen eine bis {most} Grenzen größer als 0. Sie in Prozent, als Verhältnisse oder als 1:n angeben.</translation>
    </message>
    <message>
        <source>Baseline</source>
        <translation>Achse</translation>
    </message>
    <message>
        <source>Batter of a trapezoid&apos;s sides, metres out per metre up</source>
        <translation>Böschungsneigung der Seiten eines Trapezes, Meter hinaus je Meter hinauf</translation>
    </message>
    <message>
        <source>Bays of {limit} m are none. Give a factor above 0.</source>
        <translation>Felder von {limit} m sind keine. Einen Faktor größer als 0 angeben.</translation>
    </message>
    <message>
        <source>Bays of {limit} m are too many to lay out. Give a larger factor.</source>
        <translation>Felder von {limit} m sind zu viele, um sie aufzuteilen. Einen größeren Faktor angeben.</translation>
    </message>
    <message>
        <source>Bearing of the fall</source>
        <translation>Richtung des Gefälles</translation>
    </message>
    <message>
        <source>Bedding below the invert, metres</source>
        <translation>Bettung unter der Sohle, Meter</translation>
    </message>
    <message>
        <source>Beds or rows</source>
        <translation>Beete oder Reihen</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>Begin and end a walk on marks.</source>
        <translation>Eine Begehung auf Festpunkten beginnen und beenden.</translation>
    </message>
    <message>
        <source>Below the ground. It may come from a field; of a survey&apos;s lengths 0 takes the depth noted on site. Without any it follows from inverts.</source>
        <translation>Unter dem Boden. Darf aus einem Feld kommen; bei den Längen eines Aufmaßes nimmt 0 die vor Ort notierte Tiefe. Ohne jede folgt sie aus Sohlhöhen.</translation>
    </message>
    <message>
        <source>Both edges end {gap:.3f} m or less from where they start, and they start about {far:.1f} m from each other along them. End each with its own first point, or start both at one place.</source>
        <translation>Beide Kanten enden {gap:.3f} m oder weniger von ihrem Anfang, und ihre Anfänge liegen an ihnen entlang etwa {far:.1f} m auseinander. Jede mit ihrem eigenen ersten Punkt beenden, oder beide an einer Stelle beginnen.</translation>
    </message>
    <message>
        <source>Both ways. 0.30 m is common practice, no source.</source>
        <translation>In beiden Richtungen. 0,30 m sind übliche Praxis, ohne Quelle.</translation>
    </message>
    <message>
        <source>Both {one} and {two} are control files. Keep one, with all marks in it.</source>
        <translation>{one} und {two} sind beide Passpunktdateien. Eine behalten, mit allen Festpunkten darin.</translation>
    </message>
    <message>
        <source>Boundary</source>
        <translation>Begrenzung</translation>
    </message>
    <message>
        <source>Bounds between bands of slope</source>
        <translation>Grenzen zwischen Neigungsklassen</translation>
    </message>
    <message>
        <source>Breaklines</source>
        <translation>Bruchkanten</translation>
    </message>
    <message>
        <source>Bring all walks into agreement at the marks they share, and write them in the survey plane: metres, true to the ground.

misclosure_m is what is left when a walk returns to a mark, before it is spread, and misclosure_m_sigma what the instrument should leave; far more than that is a blunder and is not spread. The error ellipses (one sigma) grow with the distance from the marks.</source>
        <translation>Alle Begehungen an den gemeinsamen Festpunkten in Übereinstimmung bringen und in der Aufmaßebene schreiben: Meter, wahr am Boden.

misclosure_m ist, was übrig bleibt, wenn eine Begehung zu einem Festpunkt zurückkommt, bevor es verteilt wird, und misclosure_m_sigma, was das Gerät lassen sollte; weit mehr ist ein grober Fehler und wird nicht verteilt. Die Fehlerellipsen (eine Standardabweichung) wachsen mit dem Abstand von den Festpunkten.</translation>
    </message>
    <message>
        <source>Bringing the walks together</source>
        <translation>Die Begehungen werden zusammengeführt</translation>
    </message>
    <message>
        <source>Build surface</source>
        <translation>Oberfläche bilden</translation>
    </message>
    <message>
        <source>Building the surface</source>
        <translation>Die Oberfläche wird gebildet</translation>
    </message>
    <message>
        <source>Bulking: loose per bank</source>
        <translation>Auflockerung: lose je gewachsen</translation>
    </message>
    <message>
        <source>Bulking: loose per laid</source>
        <translation>Auflockerung: lose je eingebaut</translation>
    </message>
    <message>
        <source>C</source>
        <translation>Ab</translation>
    </message>
    <message>
        <source>C&amp;RS</source>
        <translation>&amp;KBS</translation>
    </message>
    <message>
        <source>CRS of single files, in place of their own</source>
        <translation>KBS einzelner Dateien, statt ihres eigenen</translation>
    </message>
    <message>
        <source>CRS of the survey (the control&apos;s unless chosen)</source>
        <translation>KBS des Aufmaßes (das der Passpunkte, wenn keines gewählt ist)</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Cancelled; nothing was written.</source>
        <translation>Abgebrochen; es wurde nichts geschrieben.</translation>
    </message>
    <message>
        <source>Chainage table</source>
        <translation>Stationierungstabelle</translation>
    </message>
    <message>
        <source>Chance of a false change in the whole comparison, percent</source>
        <translation>Wahrscheinlichkeit einer falschen Änderung im ganzen Vergleich, Prozent</translation>
    </message>
    <message>
        <source>Change the sign of y in this walk: its axes were taken left-handed.</source>
        <translation>Das Vorzeichen von y in dieser Begehung ändern: ihre Achsen wurden linkshändig angenommen.</translation>
    </message>
    <message>
        <source>Changes told</source>
        <translation>Gemeldete Änderungen</translation>
    </message>
    <message>
        <source>Changes told: {count}.</source>
        <translation>Gemeldete Änderungen: {count}.</translation>
    </message>
    <message>
        <source>Check height {mark}, {height:.3f} m, lies {gap:+.3f} m from what the walks and the levels give; {allowed:.3f} m (95 %) would be expected.</source>
        <translation>Kontrollhöhe {mark}, {height:.3f} m, weicht {gap:+.3f} m von der ab, die Begehungen und Höhen ergeben; zu erwarten wären {allowed:.3f} m (95 %).</translation>
    </message>
    <message>
        <source>Check limits</source>
        <translation>Grenzwerte prüfen</translation>
    </message>
    <message>
        <source>Check point {mark} lies {gap:.3f} m from where the map pairs put it; {allowed:.3f} m (95 %) would be expected.{hint}</source>
        <translation>Kontrollpunkt {mark} liegt {gap:.3f} m von der Stelle, an die ihn die Passpunktpaare setzen; zu erwarten wären {allowed:.3f} m (95 %).{hint}</translation>
    </message>
    <message>
        <source>Check that the points picked still exist on the ground.</source>
        <translation>Prüfen, ob die abgegriffenen Punkte am Boden noch da sind.</translation>
    </message>
    <message>
        <source>Check the layer&apos;s CRS (was it set where it should have been reprojected?), or move the point.</source>
        <translation>Das KBS des Layers prüfen (wurde es gesetzt, wo umprojiziert werden sollte?) oder den Punkt verschieben.</translation>
    </message>
    <message>
        <source>Check the level and its datum, or leave it out.</source>
        <translation>Die Höhe und ihr Bezugssystem prüfen oder sie weglassen.</translation>
    </message>
    <message>
        <source>Check the mark&apos;s name in the control and in the logs.</source>
        <translation>Den Namen des Festpunkts in den Passpunkten und in den Protokollen prüfen.</translation>
    </message>
    <message>
        <source>Check the names of its ends: marks, or walk:station.</source>
        <translation>Die Namen seiner Enden prüfen: Festpunkte oder Begehung:Standpunkt.</translation>
    </message>
    <message>
        <source>Check the stated instrument and the holds on marks; walk again what is doubtful.</source>
        <translation>Das angegebene Gerät und das Halten auf den Festpunkten prüfen; Zweifelhaftes neu begehen.</translation>
    </message>
    <message>
        <source>Check this height and the level marks: datum, unit, point.</source>
        <translation>Diese Höhe und die Höhenfestpunkte prüfen: Bezugssystem, Einheit, Punkt.</translation>
    </message>
    <message>
        <source>Checking</source>
        <translation>Es wird geprüft</translation>
    </message>
    <message>
        <source>Checking {name}</source>
        <translation>{name} wird geprüft</translation>
    </message>
    <message>
        <source>Checks</source>
        <translation>Prüfungen</translation>
    </message>
    <message>
        <source>Checks ({n})</source>
        <translation>Prüfungen ({n})</translation>
    </message>
    <message>
        <source>Checks of {name}</source>
        <translation>Prüfungen von {name}</translation>
    </message>
    <message>
        <source>Checks that cannot tell</source>
        <translation>Prüfungen, die offen bleiben</translation>
    </message>
    <message>
        <source>Checks that fail</source>
        <translation>Nicht bestandene Prüfungen</translation>
    </message>
    <message>
        <source>Checks that pass</source>
        <translation>Bestandene Prüfungen</translation>
    </message>
    <message>
        <source>Checks, the worst first</source>
        <translation>Prüfungen, die schlechteste zuerst</translation>
    </message>
    <message>
        <source>Checks: {passed} pass, {failed} fail, {open} cannot tell.</source>
        <translation>Prüfungen: {passed} bestanden, {failed} nicht bestanden, {open} lassen sich nicht entscheiden.</translation>
    </message>
    <message>
        <source>Choose a check: it flashes on the map. Double click, or Enter, zooms to it.</source>
        <translation>Eine Prüfung wählen: sie blinkt auf der Karte. Doppelklick oder Eingabe zoomt darauf.</translation>
    </message>
    <message>
        <source>Choose a file</source>
        <translation>Datei wählen</translation>
    </message>
    <message>
        <source>Choose a mark and pick its place on the picture. Two pairs far apart place the survey.</source>
        <translation>Einen Festpunkt wählen und seinen Ort auf dem Bild abgreifen. Zwei weit entfernte Paare passen das Aufmaß ein.</translation>
    </message>
    <message>
        <source>Choose another projected CRS where you work in one. Check that this is where the site lies.</source>
        <translation>Ein anderes projiziertes KBS wählen, wo in einem gearbeitet wird. Prüfen, ob das Gelände dort liegt.</translation>
    </message>
    <message>
        <source>Choose another surface, or a level, to hold it against.</source>
        <translation>Eine andere Oberfläche oder eine Höhe zum Vergleich wählen.</translation>
    </message>
    <message>
        <source>Choose northing and easting, or latitude and longitude, not some of both.</source>
        <translation>Nordwert und Ostwert oder Breite und Länge wählen, nicht von beidem etwas.</translation>
    </message>
    <message>
        <source>Choose the column of the northing and that of the easting.</source>
        <translation>Die Spalte des Nordwerts und die des Ostwerts wählen.</translation>
    </message>
    <message>
        <source>Choose the folder of the logs, or drop it here, or single files:</source>
        <translation>Den Ordner der Protokolle wählen oder hier ablegen, oder einzelne Dateien:</translation>
    </message>
    <message>
        <source>Choose them below.</source>
        <translation>Sie unten wählen.</translation>
    </message>
    <message>
        <source>Choose which walk to believe: older ({first}), newer ({second}), or both where they are two things. The other stays in the file without figures.</source>
        <translation>Wählen, welcher Begehung zu glauben ist: older ({first}), newer ({second}) oder both, wo es zwei Dinge sind. Die andere bleibt ohne Maße in der Datei.</translation>
    </message>
    <message>
        <source>Chorded copy</source>
        <translation>Kopie ohne Bögen</translation>
    </message>
    <message>
        <source>Classes of &amp;depth</source>
        <translation>&amp;Tiefenklassen</translation>
    </message>
    <message>
        <source>Clear what stops the hole.</source>
        <translation>Klären, was die Aussparung sperrt.</translation>
    </message>
    <message>
        <source>Click along the line on the map. Enter or the right button ends it, Backspace takes a point back, Escape gives up.</source>
        <translation>Auf der Karte entlang der Linie klicken. Eingabe oder die rechte Taste beendet sie, Rücktaste nimmt einen Punkt zurück, Escape verwirft sie.</translation>
    </message>
    <message>
        <source>Click the first place, then the second. Backspace takes one back, Escape gives up.</source>
        <translation>Die erste Stelle anklicken, dann die zweite. Rücktaste nimmt eine zurück, Escape verwirft.</translation>
    </message>
    <message>
        <source>Click the first station. A click near a mark stands on it.</source>
        <translation>Den ersten Standpunkt anklicken. Ein Klick nahe einem Festpunkt steht darauf.</translation>
    </message>
    <message>
        <source>Click two places on the map: what lies between them on the surface is told here.</source>
        <translation>Zwei Stellen auf der Karte anklicken: was auf der Oberfläche zwischen ihnen liegt, steht hier.</translation>
    </message>
    <message>
        <source>Click where the mark is. Right click or Enter ends, Backspace takes it back.</source>
        <translation>Klicken, wo der Festpunkt ist. Rechtsklick oder Eingabe beendet, Rücktaste nimmt ihn zurück.</translation>
    </message>
    <message>
        <source>Clockwise from grid north, 90 to the east; the crossfall is across it.</source>
        <translation>Im Uhrzeigersinn von Gitternord, 90 nach Osten; das Quergefälle liegt quer dazu.</translation>
    </message>
    <message>
        <source>Clockwise from grid north; the crossfall over a surface is across it.</source>
        <translation>Im Uhrzeigersinn von Gitternord; das Quergefälle über einer Oberfläche liegt quer dazu.</translation>
    </message>
    <message>
        <source>Close it: its last point is its first.</source>
        <translation>Schließen: sein letzter Punkt ist sein erster.</translation>
    </message>
    <message>
        <source>Columns of point lists, in place of their header</source>
        <translation>Spalten von Punktlisten, statt ihrer Kopfzeile</translation>
    </message>
    <message>
        <source>Columns of these layers</source>
        <translation>Spalten dieser Layer</translation>
    </message>
    <message>
        <source>Common practice, no source; change it where you know better.</source>
        <translation>Übliche Praxis, ohne Quelle; ändern, wo es besser bekannt ist.</translation>
    </message>
    <message>
        <source>Compare surveys</source>
        <translation>Aufmaße vergleichen</translation>
    </message>
    <message>
        <source>Compare the two heights of a mark in both files, and correct the wrong one.</source>
        <translation>Die beiden Höhen eines Festpunkts in beiden Dateien vergleichen und die falsche berichtigen.</translation>
    </message>
    <message>
        <source>Comparison</source>
        <translation>Vergleich</translation>
    </message>
    <message>
        <source>Complete the element; the rest of the file was read.</source>
        <translation>Das Element vervollständigen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Complete the line or take it out; the rest of the file was read.</source>
        <translation>Die Zeile vervollständigen oder entfernen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Complete the line, or quote a field that holds the separator; the rest of the file was read.</source>
        <translation>Die Zeile vervollständigen oder ein Feld, das das Trennzeichen enthält, in Anführungszeichen setzen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Complete the list; the rest of the file was read.</source>
        <translation>Die Liste vervollständigen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Concrete of slabs inside the outlines of any layer, true to the ground, with its uncertainty: the plan area times an even thickness, or the plane through the corners&apos; heights down to a level or to a surface, over its triangles; with an edge thickened all round, or along the sides that are given, on the path of its centroid. Arcs are exact, holes are out. So is a course under paving, which may reach past its edge.

Every row comes back with its own columns and, added: concrete_m3 and what is ordered of it, its plan area, thinnest, mean and thickest, forms along all edges by height (to 150 mm, to 300 mm, above) and straight or curved, joints and bays, and whole mesh sheets with their laps.

Form classes, bay limits and laps are common practice without a source: set your own. Concrete mixes, joints and reinforcement follow local codes and a licensed practitioner&apos;s judgement. Have buried services located before breaking ground.</source>
        <translation>Beton von Platten innerhalb der Umrisse eines beliebigen Layers, wahr am Boden, mit seiner Unsicherheit: die Fläche in der Lage mal einer gleichmäßigen Dicke, oder die Ebene durch die Höhen der Ecken bis hinab zu einer Höhe oder zu einer Oberfläche, über deren Dreiecke; mit einem ringsum oder entlang der angegebenen Seiten verstärkten Rand, auf dem Weg seines Schwerpunkts. Bögen sind exakt, Aussparungen abgezogen. Ebenso eine Schicht unter einem Belag, die über dessen Rand hinausreichen darf.

Jede Zeile kommt mit ihren eigenen Spalten zurück; dazu: concrete_m3 und was davon bestellt wird, ihre Fläche in der Lage, kleinste, mittlere und größte Dicke, Schalung entlang aller Kanten nach Höhe (bis 150 mm, bis 300 mm, darüber) und gerade oder gebogen, Fugen und Felder, und ganze Bewehrungsmatten mit ihren Überlappungen.

Schalungsklassen, Feldgrenzen und Überlappungen sind übliche Praxis ohne Quelle: eigene setzen. Betonmischungen, Fugen und Bewehrung folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>Contours</source>
        <translation>Höhenlinien</translation>
    </message>
    <message>
        <source>Contours every {interval:g} m are more than can be drawn on heights from {low:.2f} to {high:.2f} m. Give a larger interval.</source>
        <translation>Höhenlinien alle {interval:g} m sind mehr, als sich bei Höhen von {low:.2f} bis {high:.2f} m zeichnen lassen. Einen größeren Abstand angeben.</translation>
    </message>
    <message>
        <source>Contours of {name}</source>
        <translation>Höhenlinien von {name}</translation>
    </message>
    <message>
        <source>Control</source>
        <translation>Passpunkte</translation>
    </message>
    <message>
        <source>Control point {mark} is not used: no walk stands on a mark of this name.</source>
        <translation>Passpunkt {mark} wird nicht verwendet: keine Begehung steht auf einem Festpunkt dieses Namens.</translation>
    </message>
    <message>
        <source>Control point {mark} is not used: no walk stands on a mark of this name. Is it {like}?</source>
        <translation>Passpunkt {mark} wird nicht verwendet: keine Begehung steht auf einem Festpunkt dieses Namens. Ist {like} gemeint?</translation>
    </message>
    <message>
        <source>Correct `hole_in`, or the stations of the hole or of the area there.</source>
        <translation>`hole_in` oder dort die Standpunkte der Aussparung oder der Fläche berichtigen.</translation>
    </message>
    <message>
        <source>Correct `offset` or `offset_side`, or accept the edge as drawn.</source>
        <translation>`offset` oder `offset_side` berichtigen oder die Kante annehmen, wie gezeichnet.</translation>
    </message>
    <message>
        <source>Correct `offset` or `offset_side`, or walk the true edge there.</source>
        <translation>`offset` oder `offset_side` berichtigen oder dort die wahre Kante begehen.</translation>
    </message>
    <message>
        <source>Correct its list of points; the rest of the file was read.</source>
        <translation>Seine Punktliste berichtigen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct its points or its radius; it is not drawn, the rest of the file was read.</source>
        <translation>Seine Punkte oder seinen Radius berichtigen; es wird nicht gezeichnet, der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct its points, or draw a line.</source>
        <translation>Seine Punkte berichtigen oder eine Linie zeichnen.</translation>
    </message>
    <message>
        <source>Correct its points, rot or {part}; it is not drawn, the rest of the file was read.</source>
        <translation>Seine Punkte, „rot“ oder {part} berichtigen; es wird nicht gezeichnet, der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct the heights, or end one of the two lines before it meets the other; the foot and the top of an upright face are drawn a little apart. A wall with no ground at its top on either side is no ground: leave it out.</source>
        <translation>Die Höhen berichtigen oder eine der beiden Linien vor der anderen enden lassen; Fuß und Krone einer senkrechten Fläche werden ein wenig auseinander gezeichnet. Eine Mauer ohne Boden an ihrer Krone auf einer der beiden Seiten ist kein Boden: sie weglassen.</translation>
    </message>
    <message>
        <source>Correct the line or write the file anew; what stood before was read.</source>
        <translation>Die Zeile berichtigen oder die Datei neu schreiben; was davor stand, wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct the line; until then the survey goes on as if the key were not given.</source>
        <translation>Die Zeile berichtigen; bis dahin läuft das Aufmaß, als wäre der Schlüssel nicht angegeben.</translation>
    </message>
    <message>
        <source>Correct the log: put stations {b} to {c} in reverse order, leave one of them out, or split there.</source>
        <translation>Das Protokoll berichtigen: die Standpunkte {b} bis {c} in umgekehrte Folge bringen, einen davon weglassen oder dort teilen.</translation>
    </message>
    <message>
        <source>Correct the mark&apos;s name in the log if it is.</source>
        <translation>Dann den Namen des Festpunkts im Protokoll berichtigen.</translation>
    </message>
    <message>
        <source>Correct the name or add the point; the rest of the file was read.</source>
        <translation>Den Namen berichtigen oder den Punkt hinzufügen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct the number or the units; the rest of the file was read.</source>
        <translation>Die Zahl oder die Einheiten berichtigen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct the number, or exchange the columns; the rest of the file was read.</source>
        <translation>Die Zahl berichtigen oder die Spalten tauschen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct the number; the rest of the file was read.</source>
        <translation>Die Zahl berichtigen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Correct the piece in the file, or write it as lines and arcs.</source>
        <translation>Das Stück in der Datei berichtigen oder als Linien und Bögen schreiben.</translation>
    </message>
    <message>
        <source>Correct the stations of the circle, its `offset`, or the sides there; walk a circle that stands by itself as a feature of its own.</source>
        <translation>Die Standpunkte des Kreises, seinen `offset` oder die Seiten dort berichtigen; einen Kreis, der für sich steht, als eigenes Objekt begehen.</translation>
    </message>
    <message>
        <source>Correct the stations of the two there, or `hole_in` if one is a hole of the other; give them another `option`, `surface` or `phase` if they are no one plan; answer leave if both are to count it.</source>
        <translation>Die Standpunkte der beiden dort berichtigen, oder `hole_in`, wenn eine die Aussparung der anderen ist; ihnen eine andere `option`, `surface` oder `phase` geben, wenn sie nicht zu einem Plan gehören; mit leave antworten, wenn beide es zählen sollen.</translation>
    </message>
    <message>
        <source>Correct the stations of the two there. Is it one hole walked twice, leave one out; does one lie in the other, name that one in its `hole_in`.</source>
        <translation>Die Standpunkte der beiden dort berichtigen. Ist es eine Aussparung, zweimal begangen, eine weglassen; liegt eine in der anderen, diese in ihrem `hole_in` nennen.</translation>
    </message>
    <message>
        <source>Correct the stations, or give it another geometry (`length`).</source>
        <translation>Die Standpunkte berichtigen oder eine andere geometry (`length`) geben.</translation>
    </message>
    <message>
        <source>Correct the time, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from here on are then a walk of their own.</source>
        <translation>Die Zeit berichtigen oder bestätigen mit: as recorded. Hat das Aufnahmegerät hier neu begonnen, mit split antworten: die Zeilen von hier an sind dann eine eigene Begehung.</translation>
    </message>
    <message>
        <source>Count planting</source>
        <translation>Pflanzung zählen</translation>
    </message>
    <message>
        <source>Counted planting</source>
        <translation>Gezählte Pflanzung</translation>
    </message>
    <message>
        <source>Counts courses and steps of the footing; 0 for none.</source>
        <translation>Zählt Schichten und Stufen des Fundaments; 0 für keine.</translation>
    </message>
    <message>
        <source>Cross section</source>
        <translation>Querschnitt</translation>
    </message>
    <message>
        <source>Crossfalls along lines</source>
        <translation>Quergefälle entlang von Linien</translation>
    </message>
    <message>
        <source>Crossfalls along lines: none are told, for they need a layer of lines and a surface.</source>
        <translation>Quergefälle entlang von Linien: keine werden gemeldet, denn sie brauchen einen Layer von Linien und eine Oberfläche.</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Abtrag</translation>
    </message>
    <message>
        <source>Cut C</source>
        <translation>Abtrag (Ab)</translation>
    </message>
    <message>
        <source>Cut and fill of a surface to a level, to a plane through three points or to another surface, over all of it or over areas with voids, a row each. Exact over the triangles of both, split where the depth is zero: cut and fill are never netted, net_m3 stands beside them.

Only ground that both surfaces cover is measured; left_out_m2 is what of the area they do not, and finding says so. Strip is taken off everywhere first and is never fill. From bank to loose, compacted, tonnes and loads each factor counts once, and working shows it; loads are whole, by volume or by mass, whichever is more. Depths by class has the ground by its depth (cut positive), Zero line what lies between cut and fill. Every _sigma is one standard deviation, from the points&apos; heights and the ground between them; outlines, strip (unless told) and planes are taken as exact.

Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation>Abtrag und Auftrag einer Oberfläche zu einer Höhe, zu einer Ebene durch drei Punkte oder zu einer anderen Oberfläche, über ihrer ganzen Ausdehnung oder über Flächen mit Aussparungen, je eine Zeile. Exakt über die Dreiecke beider, geteilt, wo die Tiefe null ist: Abtrag und Auftrag werden nie gegeneinander aufgerechnet, net_m3 steht daneben.

Gemessen wird nur Boden, den beide Oberflächen bedecken; left_out_m2 ist, was sie von der Fläche nicht bedecken, und finding sagt es. Oberboden wird zuerst überall abgetragen und ist nie Auftrag. Von gewachsen zu lose, verdichtet, Tonnen und Fuhren zählt jeder Faktor einmal, und working zeigt es; Fuhren sind ganze, nach Volumen oder nach Masse, je nachdem, was mehr ist. „Tiefen nach Klassen“ hat den Boden nach seiner Tiefe (Abtrag positiv), „Nulllinie“, was zwischen Abtrag und Auftrag liegt. Jedes _sigma ist eine Standardabweichung, aus den Höhen der Punkte und dem Boden dazwischen; Umrisse, Oberbodenabtrag (wenn nichts gesagt ist) und Ebenen gelten als exakt.

Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>Cut of all rows, cubic metres</source>
        <translation>Abtrag aller Zeilen, Kubikmeter</translation>
    </message>
    <message>
        <source>Cut sections</source>
        <translation>Schnitte legen</translation>
    </message>
    <message>
        <source>DR-01: Cannot tell.</source>
        <translation>DR-01: Lässt sich nicht entscheiden.</translation>
    </message>
    <message>
        <source>DR-01: Cannot tell: the 95 % interval lies on both sides. Level it better.</source>
        <translation>DR-01: Lässt sich nicht entscheiden: der 95-%-Bereich liegt auf beiden Seiten. Die Höhen besser messen.</translation>
    </message>
    <message>
        <source>DR-01: The fall is outside the limit beyond what it is worth. Change levels, or accept it.</source>
        <translation>DR-01: Das Gefälle liegt über das hinaus, was es wert ist, außerhalb des Grenzwerts. Höhen ändern oder es annehmen.</translation>
    </message>
    <message>
        <source>DR-01: Water stands here. Raise the ground, add a drain, or accept it as a pond.</source>
        <translation>DR-01: Hier steht Wasser. Den Boden anheben, einen Ablauf setzen oder es als Senke annehmen.</translation>
    </message>
    <message>
        <source>Decisions</source>
        <translation>Entscheidungen</translation>
    </message>
    <message>
        <source>Degrees</source>
        <translation>Grad</translation>
    </message>
    <message>
        <source>Delete point {corner} ({without:.3f} m2).</source>
        <translation>Punkt {corner} löschen ({without:.3f} m2).</translation>
    </message>
    <message>
        <source>Delete that point.</source>
        <translation>Diesen Punkt löschen.</translation>
    </message>
    <message>
        <source>Density in the bank, tonnes per cubic metre</source>
        <translation>Dichte im gewachsenen Boden, Tonnen je Kubikmeter</translation>
    </message>
    <message>
        <source>Depth at the end of the line, metres</source>
        <translation>Tiefe am Ende der Linie, Meter</translation>
    </message>
    <message>
        <source>Depth of a thickened edge below the slab, metres</source>
        <translation>Tiefe eines verstärkten Rands unter der Platte, Meter</translation>
    </message>
    <message>
        <source>Depth of mulch, metres</source>
        <translation>Mulchdicke, Meter</translation>
    </message>
    <message>
        <source>Depth of the footing, metres</source>
        <translation>Tiefe des Fundaments, Meter</translation>
    </message>
    <message>
        <source>Depth, metres</source>
        <translation>Tiefe, Meter</translation>
    </message>
    <message>
        <source>Depths by class</source>
        <translation>Tiefen nach Klassen</translation>
    </message>
    <message>
        <source>Depths from {least:.3f} m to {most:.3f} m in steps of {step} m are {count:.0f} classes. Give a larger step.</source>
        <translation>Tiefen von {least:.3f} m bis {most:.3f} m in Schritten von {step} m sind {count:.0f} Klassen. Einen größeren Schritt angeben.</translation>
    </message>
    <message>
        <source>Depths of {name} to {target}</source>
        <translation>Tiefen von {name} gegen {target}</translation>
    </message>
    <message>
        <source>Description</source>
        <translation>Beschreibung</translation>
    </message>
    <message>
        <source>Design surface</source>
        <translation>Geplante Oberfläche</translation>
    </message>
    <message>
        <source>Direction along the area, degrees</source>
        <translation>Richtung entlang der Fläche, Grad</translation>
    </message>
    <message>
        <source>Direction along the areas, degrees</source>
        <translation>Richtung entlang der Flächen, Grad</translation>
    </message>
    <message>
        <source>Distance in the survey plane from the mark, as placed, to its map point.</source>
        <translation>Abstand in der Aufmaßebene vom Festpunkt, wie eingepasst, zu seinem Passpunkt.</translation>
    </message>
    <message>
        <source>Dotted: 95 % ellipses, {times} times.</source>
        <translation>Gepunktet: 95-%-Ellipsen, {times}-fach.</translation>
    </message>
    <message>
        <source>Double click, or Enter, opens it.</source>
        <translation>Doppelklick oder Eingabe öffnet es.</translation>
    </message>
    <message>
        <source>Double click, or Enter, shows it on the map.</source>
        <translation>Doppelklick oder Eingabe zeigt es auf der Karte.</translation>
    </message>
    <message>
        <source>Double click, or Enter: show the station on the map.</source>
        <translation>Doppelklick oder Eingabe: den Standpunkt auf der Karte zeigen.</translation>
    </message>
    <message>
        <source>Draw a line across the site: the levels of every edge and station on it are plotted here.</source>
        <translation>Eine Linie über das Gelände zeichnen: die Höhen jeder Kante und jedes Standpunkts darauf werden hier aufgetragen.</translation>
    </message>
    <message>
        <source>Draw as</source>
        <translation>Zeichnen als</translation>
    </message>
    <message>
        <source>Draw it again, or repair the file.</source>
        <translation>Neu zeichnen oder die Datei reparieren.</translation>
    </message>
    <message>
        <source>Draw it inside, or take what lies beyond it out of the outer ring.</source>
        <translation>Innerhalb zeichnen oder, was darüber hinausragt, vom äußeren Ring wegnehmen.</translation>
    </message>
    <message>
        <source>Draw it, or delete the row.</source>
        <translation>Zeichnen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>Draw on the map</source>
        <translation>Auf der Karte zeichnen</translation>
    </message>
    <message>
        <source>Draw walk</source>
        <translation>Begehung zeichnen</translation>
    </message>
    <message>
        <source>Drawn. Click the first station of the next line, or press Forecast.</source>
        <translation>Gezeichnet. Den ersten Standpunkt der nächsten Linie anklicken oder „Vorhersagen“ drücken.</translation>
    </message>
    <message>
        <source>E&amp;xchange northing and easting</source>
        <translation>Nord- und Ostwert &amp;tauschen</translation>
    </message>
    <message>
        <source>Each length between two sections needs one middle section with an area of 0 or more.</source>
        <translation>Jede Länge zwischen zwei Schnitten braucht einen mittleren Schnitt mit einer Fläche von 0 oder mehr.</translation>
    </message>
    <message>
        <source>Each part of each row is a section.</source>
        <translation>Jeder Teil jeder Zeile ist ein Schnitt.</translation>
    </message>
    <message>
        <source>Easting</source>
        <translation>Ostwert</translation>
    </message>
    <message>
        <source>Edge of an area</source>
        <translation>Kante einer Fläche</translation>
    </message>
    <message>
        <source>Edge {edge} turns with a radius of {radius:.3f} m, and the trench reaches {reach:.3f} m to its inner side. Give a smaller width, or draw the line along the other side.</source>
        <translation>Kante {edge} biegt mit einem Radius von {radius:.3f} m, und der Graben reicht {reach:.3f} m nach ihrer Innenseite. Eine kleinere Breite angeben oder die Linie entlang der anderen Seite zeichnen.</translation>
    </message>
    <message>
        <source>Edge {edge}, {length:.3f} m long, has no room for the trench, which reaches {reach:.3f} m to its inner side: its corners are too tight. Give a smaller width, or draw the line simpler there.</source>
        <translation>Kante {edge}, {length:.3f} m lang, hat keinen Platz für den Graben, der {reach:.3f} m nach ihrer Innenseite reicht: ihre Ecken sind zu eng. Eine kleinere Breite angeben oder die Linie dort einfacher zeichnen.</translation>
    </message>
    <message>
        <source>Edge {edge}, {length:.3f} m long, has no room for {by:.3f} m to its inner side: its radius or its corners are too tight. Give a smaller thickness, or draw the line along the other side.</source>
        <translation>Kante {edge}, {length:.3f} m lang, hat nach ihrer Innenseite keinen Platz für {by:.3f} m: ihr Radius oder ihre Ecken sind zu eng. Eine kleinere Dicke angeben oder die Linie entlang der anderen Seite zeichnen.</translation>
    </message>
    <message>
        <source>Edge, apart from that: ±{reach} (95 %), for an edge that is worth ±{worth} over {length} in all.</source>
        <translation>Kante, getrennt davon: ±{reach} (95 %), bei einer Kante, die ±{worth} wert ist, über zusammen {length}.</translation>
    </message>
    <message>
        <source>Edge: nothing, the edge is taken to lie where it was walked.</source>
        <translation>Kante: nichts, sie gilt als dort liegend, wo sie begangen wurde.</translation>
    </message>
    <message>
        <source>Edges</source>
        <translation>Kanten</translation>
    </message>
    <message>
        <source>Edges of neighbours that may be one: farthest apart, metres</source>
        <translation>Kanten von Nachbarn, die eine sein können: größter Abstand, Meter</translation>
    </message>
    <message>
        <source>Edges within this, and within what their stations can be trusted to, are asked about (GE-02); they are joined only where you answer join.</source>
        <translation>Nach Kanten innerhalb davon, und innerhalb dessen, was ihren Standpunkten zuzutrauen ist, wird gefragt (GE-02); verbunden werden sie nur, wo mit join geantwortet wird.</translation>
    </message>
    <message>
        <source>Elevation</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>Ellipses are at their size.</source>
        <translation>Ellipsen sind in wahrer Größe.</translation>
    </message>
    <message>
        <source>Ellipses are drawn {times} times their size.</source>
        <translation>Ellipsen sind {times}-fach vergrößert gezeichnet.</translation>
    </message>
    <message>
        <source>Empty: all are. No, false, 0 and nothing say no.</source>
        <translation>Leer: alle sind es. No, false, 0 und nichts sagen nein.</translation>
    </message>
    <message>
        <source>Empty: each line is a feature.</source>
        <translation>Leer: jede Linie ist ein Objekt.</translation>
    </message>
    <message>
        <source>Empty: each line is a walk of its own.</source>
        <translation>Leer: jede Linie ist eine eigene Begehung.</translation>
    </message>
    <message>
        <source>Empty: none is, and nothing is told of heights.</source>
        <translation>Leer: keine ist es, und von Höhen wird nichts gesagt.</translation>
    </message>
    <message>
        <source>Empty: the field mark, or name.</source>
        <translation>Leer: das Feld mark oder name.</translation>
    </message>
    <message>
        <source>End areas</source>
        <translation>Querschnittsflächen</translation>
    </message>
    <message>
        <source>End areas lie along a baseline. Give one, or leave them out.</source>
        <translation>Querschnittsflächen liegen entlang einer Achse. Eine angeben oder sie weglassen.</translation>
    </message>
    <message>
        <source>End areas need two surfaces. Choose the ground first, and then what it is held against.</source>
        <translation>Querschnittsflächen brauchen zwei Oberflächen. Zuerst den Boden wählen, dann das, womit er verglichen wird.</translation>
    </message>
    <message>
        <source>End the walk on a mark.</source>
        <translation>Die Begehung auf einem Festpunkt beenden.</translation>
    </message>
    <message>
        <source>Enter how well the point could be picked: half a pixel and the picture&apos;s stated accuracy together.</source>
        <translation>Eintragen, wie genau der Punkt abgegriffen werden konnte: ein halbes Pixel und die angegebene Genauigkeit des Bildes zusammen.</translation>
    </message>
    <message>
        <source>Error budget before the walk: draw the stations you mean to stand on, say which are marks and what the instrument is worth, and see what the survey will give.

Each line is a walk through its vertices in order; lines of one name in the field of walks are one walk, in the order of the rows. A line of one part that closes is an area, any other a length; a line without a name in the field of features is only the way. Vertices near a mark stand on it. Where a mark is walked over twice, the walk is closed there.

Stations have the error ellipse where they will lie on the map: one sigma, and 95 %; worst is 1 at the far corner. Features are the lines with area, perimeter or length to expect. Each _share_ratio tells what part of the variance comes from the instrument&apos;s scale, its heading, the noise of legs and stands, the tapes, the map points, and the shift they share (which moves the site, not its size). What would help ranks what could be done: stand on a station again, pair it with the map, tape a length. Findings are what the survey&apos;s own checks say of the plan.

It is the survey of this walk without any error, so the figures are the ones that Survey walks would state. Mistakes (a wrong mark, a wrong unit) are in no forecast.</source>
        <translation>Fehlerhaushalt vor der Begehung: die Standpunkte zeichnen, auf denen gestanden werden soll, sagen, welche davon Festpunkte sind und was das Gerät leistet, und sehen, was das Aufmaß ergeben wird.

Jede Linie ist eine Begehung durch ihre Stützpunkte der Reihe nach; Linien eines Namens im Feld der Begehungen sind eine Begehung, in der Folge der Zeilen. Eine Linie aus einem Teil, die sich schließt, ist eine Fläche, jede andere eine Länge; eine Linie ohne Namen im Feld der Objekte ist nur der Weg. Stützpunkte nahe einem Festpunkt stehen darauf. Wo ein Festpunkt zweimal begangen wird, ist die Begehung dort geschlossen.

„Standpunkte“ haben die Fehlerellipse dort, wo sie auf der Karte liegen werden: eine Standardabweichung, und 95 %; worst ist 1 an der fernen Ecke. „Objekte“ sind die Linien mit der zu erwartenden Fläche, dem Umfang oder der Länge. Jedes _share_ratio sagt, welcher Teil der Varianz vom Maßstab des Geräts kommt, von seiner Richtung, vom Rauschen der Strecken und Stände, von den Bandmaßen, den Kartenpunkten und der Verschiebung, die diese gemeinsam haben (sie verschiebt das Gelände, nicht seine Größe). „Was helfen würde“ ordnet, was sich tun ließe: noch einmal auf einem Standpunkt stehen, ihn mit der Karte paaren, eine Länge mit dem Band messen. „Befunde“ sind, was die Prüfungen des Aufmaßes selbst zu dem Plan sagen.

Es ist das Aufmaß dieser Begehung ohne jeden Fehler; die Maße sind daher die, die „Begehungen aufmessen“ angeben würde. Versehen (ein falscher Festpunkt, eine falsche Einheit) stecken in keiner Vorhersage.</translation>
    </message>
    <message>
        <source>Errs by</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>Even all over. It may come from a field; of a survey&apos;s areas 0 takes the depth noted on site.</source>
        <translation>Überall gleich. Darf aus einem Feld kommen; bei den Flächen eines Aufmaßes nimmt 0 die vor Ort notierte Tiefe.</translation>
    </message>
    <message>
        <source>Every residual that can be tested</source>
        <translation>Jede Restklaffe, die sich prüfen lässt</translation>
    </message>
    <message>
        <source>Exchange the two (of 1:n, the larger n is the flatter); the rest of the file was read.</source>
        <translation>Die beiden tauschen (bei 1:n ist das größere n das flachere); der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Exchange {one} and {other} in this walk, or rename them.</source>
        <translation>{one} und {other} in dieser Begehung tauschen oder umbenennen.</translation>
    </message>
    <message>
        <source>Exchange {one} and {other} in this walk, or rename them. If the names are right, accept them: the heights and levels are then judged one by one.</source>
        <translation>{one} und {other} in dieser Begehung tauschen oder umbenennen. Stimmen die Namen, sie annehmen: dann werden die Höhen einzeln beurteilt.</translation>
    </message>
    <message>
        <source>Existing surface</source>
        <translation>Bestehende Oberfläche</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Erwartet</translation>
    </message>
    <message>
        <source>Expected 95 % ellipses, at their size</source>
        <translation>Erwartete 95-%-Ellipsen, in wahrer Größe</translation>
    </message>
    <message>
        <source>Expected 95 % ellipses, drawn {times} times their size</source>
        <translation>Erwartete 95-%-Ellipsen, {times}-fach vergrößert gezeichnet</translation>
    </message>
    <message>
        <source>Expected ±95 %</source>
        <translation>Erwartet ±95 %</translation>
    </message>
    <message>
        <source>Expected ±95 %
(assumed)</source>
        <translation>Erwartet ±95 %
(angenommen)</translation>
    </message>
    <message>
        <source>Expected, before the walk; 95 % figures.</source>
        <translation>Erwartet, vor der Begehung; 95-%-Maße.</translation>
    </message>
    <message>
        <source>Extra past the outer edge, metres</source>
        <translation>Überstand über den äußeren Rand, Meter</translation>
    </message>
    <message>
        <source>F</source>
        <translation>Auf</translation>
    </message>
    <message>
        <source>F fails, ? cannot tell, – could not be measured, P passes</source>
        <translation>F nicht bestanden, ? nicht zu entscheiden, – nicht messbar, P bestanden</translation>
    </message>
    <message>
        <source>Fail and cannot tell</source>
        <translation>Nicht bestanden und nicht zu entscheiden</translation>
    </message>
    <message>
        <source>Fall</source>
        <translation>Gefälle</translation>
    </message>
    <message>
        <source>Fall = √({p}² + {q}²) = {fall}</source>
        <translation>Gefälle = √({p}² + {q}²) = {fall}</translation>
    </message>
    <message>
        <source>Far corner
station {station} of walk {walk}</source>
        <translation>Ferne Ecke
Standpunkt {station} der Begehung {walk}</translation>
    </message>
    <message>
        <source>Far corner: station {station} of walk {walk}, ±{major:.3f} m (95 %); {shares}.</source>
        <translation>Ferne Ecke: Standpunkt {station} der Begehung {walk}, ±{major:.3f} m (95 %); {shares}.</translation>
    </message>
    <message>
        <source>Feature</source>
        <translation>Objekt</translation>
    </message>
    <message>
        <source>Features</source>
        <translation>Objekte</translation>
    </message>
    <message>
        <source>Fewer than two marks are paired: the corners hold among the marks, not on the map.</source>
        <translation>Weniger als zwei Festpunkte sind gepaart: die Ecken gelten zwischen den Festpunkten, nicht auf der Karte.</translation>
    </message>
    <message>
        <source>Field of directions</source>
        <translation>Feld der Richtungen</translation>
    </message>
    <message>
        <source>Field of heights, metres</source>
        <translation>Feld der Höhen, Meter</translation>
    </message>
    <message>
        <source>Field of sizes along the line</source>
        <translation>Feld der Größen entlang der Linie</translation>
    </message>
    <message>
        <source>Field of stem diameters as noted</source>
        <translation>Feld der Stammdurchmesser, wie notiert</translation>
    </message>
    <message>
        <source>Field that names the feature</source>
        <translation>Feld, das das Objekt nennt</translation>
    </message>
    <message>
        <source>Field that names the mark</source>
        <translation>Feld, das den Festpunkt nennt</translation>
    </message>
    <message>
        <source>Field that names the walk</source>
        <translation>Feld, das die Begehung nennt</translation>
    </message>
    <message>
        <source>Field that says yes where a mark is paired with the map</source>
        <translation>Feld, das ja sagt, wo ein Festpunkt mit der Karte gepaart ist</translation>
    </message>
    <message>
        <source>Field that says yes where the height of a mark is known</source>
        <translation>Feld, das ja sagt, wo die Höhe eines Festpunkts bekannt ist</translation>
    </message>
    <message>
        <source>Figures</source>
        <translation>Maße</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Files of the job</source>
        <translation>Dateien der Arbeit</translation>
    </message>
    <message>
        <source>Fill</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>Fill F</source>
        <translation>Auftrag (Auf)</translation>
    </message>
    <message>
        <source>Fill in what the instrument is worth.</source>
        <translation>Eintragen, was das Gerät leistet.</translation>
    </message>
    <message>
        <source>Fill of all rows, cubic metres</source>
        <translation>Auftrag aller Zeilen, Kubikmeter</translation>
    </message>
    <message>
        <source>Fill the field in; the rest of the file was read.</source>
        <translation>Das Feld ausfüllen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Find low points</source>
        <translation>Tiefpunkte suchen</translation>
    </message>
    <message>
        <source>Finding low points</source>
        <translation>Tiefpunkte werden gesucht</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>Findings on the map</source>
        <translation>Befunde auf der Karte</translation>
    </message>
    <message>
        <source>Findings: stop {stops}, ask {asks}, answered {answered}, note {notes}.</source>
        <translation>Befunde: Sperre {stops}, Frage {asks}, beantwortet {answered}, Hinweis {notes}.</translation>
    </message>
    <message>
        <source>Finished levels are walked ({feature} in walk {walk} is the first), but no mark has a known height.</source>
        <translation>Fertige Höhen sind begangen ({feature} in Begehung {walk} ist die erste), aber kein Festpunkt hat eine bekannte Höhe.</translation>
    </message>
    <message>
        <source>Fit arcs</source>
        <translation>Bögen einpassen</translation>
    </message>
    <message>
        <source>Fit the scale to the control</source>
        <translation>Den Maßstab an die Passpunkte anpassen</translation>
    </message>
    <message>
        <source>Fitted</source>
        <translation>Eingepasst</translation>
    </message>
    <message>
        <source>Fitting</source>
        <translation>Es wird eingepasst</translation>
    </message>
    <message>
        <source>Folder of the logs</source>
        <translation>Ordner der Protokolle</translation>
    </message>
    <message>
        <source>For loads by mass.</source>
        <translation>Für Fuhren nach Masse.</translation>
    </message>
    <message>
        <source>For loads by volume.</source>
        <translation>Für Fuhren nach Volumen.</translation>
    </message>
    <message>
        <source>For tonnes and loads by mass.</source>
        <translation>Für Tonnen und Fuhren nach Masse.</translation>
    </message>
    <message>
        <source>Forecasting</source>
        <translation>Es wird vorhergesagt</translation>
    </message>
    <message>
        <source>Formula with its numbers</source>
        <translation>Formel mit ihren Zahlen</translation>
    </message>
    <message>
        <source>From plant to plant; 0 for no plants. It may come from a field.</source>
        <translation>Von Pflanze zu Pflanze; 0 für keine Pflanzen. Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>From section to section; there is one at the end of the baseline too.</source>
        <translation>Von Schnitt zu Schnitt; auch am Ende der Achse liegt einer.</translation>
    </message>
    <message>
        <source>From the edge inward.</source>
        <translation>Vom Rand nach innen.</translation>
    </message>
    <message>
        <source>From the first place to the second, on {name}; ± is 95 %.</source>
        <translation>Von der ersten Stelle zur zweiten, auf {name}; ± ist 95 %.</translation>
    </message>
    <message>
        <source>From the first place to the second; negative where it falls.</source>
        <translation>Von der ersten Stelle zur zweiten; negativ, wo es fällt.</translation>
    </message>
    <message>
        <source>From the level.</source>
        <translation>Von der Waagerechten.</translation>
    </message>
    <message>
        <source>From walk logs to one placed, measured survey: a GeoPackage with true curves, and a project beside it that shows it.

Areas are in plan, holes out (area_m2), and along the slope (sloped_area_m2); lengths in plan (length_m) and along the slope (slope_length_m); gradient_ratio is rise by run, positive up along the walk; fall_ratio and fall_bearing_deg are those of the plane nearest to the area&apos;s heights. All are true measures on the ground, whatever the CRS. Every _sigma is one standard deviation; labels show the 95 % figure, 1.96 times as wide.

What looks wrong is a finding. A stop keeps the figures it touches out until it is answered in the decisions file; an ask leaves them in as recorded. Read the table of findings before you use a figure.

Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation>Von Begehungsprotokollen zu einem eingepassten, gemessenen Aufmaß: ein GeoPackage mit wahren Bögen und ein Projekt daneben, das es zeigt.

Flächen sind in der Lage, Aussparungen abgezogen (area_m2), und in der Neigung (sloped_area_m2); Längen in der Lage (length_m) und in der Neigung (slope_length_m); gradient_ratio ist Höhe durch Länge, positiv aufwärts im Gehen; fall_ratio und fall_bearing_deg sind die der Ebene, die den Höhen der Fläche am nächsten kommt. Alle sind wahre Maße am Boden, in jedem KBS. Jedes _sigma ist eine Standardabweichung; Beschriftungen zeigen das 95-%-Maß, 1,96-mal so weit.

Was falsch aussieht, ist ein Befund. Eine Sperre hält die Maße, die sie berührt, zurück, bis sie in der Entscheidungsdatei beantwortet ist; eine Frage lässt sie stehen, wie aufgenommen. Vor dem Verwenden eines Maßes die Tabelle der Befunde lesen.

Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>GPX</source>
        <translation>GPX</translation>
    </message>
    <message>
        <source>GeoPackage</source>
        <translation>GeoPackage</translation>
    </message>
    <message>
        <source>Give a number above zero; the rest of the file was read.</source>
        <translation>Eine Zahl größer als null angeben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give a number or empty the field; the rest of the file was read.</source>
        <translation>Eine Zahl angeben oder das Feld leeren; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give both, or empty both for a level mark; the rest of the file was read.</source>
        <translation>Beide angeben oder für einen Höhenfestpunkt beide leeren; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give degrees from -90 to 90 and from -180 to 180; the rest of the file was read.</source>
        <translation>Grad von -90 bis 90 und von -180 bis 180 angeben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give each point an id of its own; the rest of the file was read.</source>
        <translation>Jedem Punkt eine eigene id geben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give it another name, or confirm with: as recorded. What refers to {name} means the first.</source>
        <translation>Einen anderen Namen geben oder bestätigen mit: as recorded. Was auf {name} verweist, meint den ersten.</translation>
    </message>
    <message>
        <source>Give it its lines and arcs.</source>
        <translation>Linien und Bögen dazu angeben.</translation>
    </message>
    <message>
        <source>Give it points and faces.</source>
        <translation>Punkte und Dreiecke dazu angeben.</translation>
    </message>
    <message>
        <source>Give it three corners or more, or another geometry (`length`, `spot`).</source>
        <translation>Drei Ecken oder mehr geben, oder eine andere geometry (`length`, `spot`).</translation>
    </message>
    <message>
        <source>Give it two stations or more, or the geometry `spot`.</source>
        <translation>Zwei Standpunkte oder mehr geben, oder die geometry `spot`.</translation>
    </message>
    <message>
        <source>Give map points of two marks or more in the control file.</source>
        <translation>In der Passpunktdatei Kartenpunkte von zwei Festpunkten oder mehr angeben.</translation>
    </message>
    <message>
        <source>Give north, east and height in finite numbers; the rest of the file was read.</source>
        <translation>Nord, Ost und Höhe als endliche Zahlen angeben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give one of the two walks another name, or confirm with: as recorded.</source>
        <translation>Einer der beiden Begehungen einen anderen Namen geben oder bestätigen mit: as recorded.</translation>
    </message>
    <message>
        <source>Give one of them its coordinates; the rest of the file was read.</source>
        <translation>Einem von ihnen seine Koordinaten geben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give one of them, or both; the rest of the file was read.</source>
        <translation>Eines davon angeben oder beide; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give the EPSG code in CoordinateSystem, or place the survey with control.</source>
        <translation>Den EPSG-Code in CoordinateSystem angeben oder das Aufmaß mit Passpunkten einpassen.</translation>
    </message>
    <message>
        <source>Give the curve&apos;s last station the leg `curve-end`, or accept it as drawn.</source>
        <translation>Dem letzten Standpunkt der Kurve das leg `curve-end` geben oder sie annehmen, wie gezeichnet.</translation>
    </message>
    <message>
        <source>Give the height of the ground above the ellipsoid where that matters.</source>
        <translation>Die Höhe des Bodens über dem Ellipsoid angeben, wo es darauf ankommt.</translation>
    </message>
    <message>
        <source>Give the height of the ground above the ellipsoid, or the separation, where that matters.</source>
        <translation>Die Höhe des Bodens über dem Ellipsoid oder die separation angeben, wo es darauf ankommt.</translation>
    </message>
    <message>
        <source>Give the surface a name, such as ground.</source>
        <translation>Der Oberfläche einen Namen geben, etwa ground.</translation>
    </message>
    <message>
        <source>Give the whole file; what stood before was read.</source>
        <translation>Die ganze Datei angeben; was davor stand, wurde gelesen.</translation>
    </message>
    <message>
        <source>Give them in {target} where that matters.</source>
        <translation>In {target} angeben, wo es darauf ankommt.</translation>
    </message>
    <message>
        <source>Give two of its stations the names of marks that the others stand on, or survey it by itself.</source>
        <translation>Zwei ihrer Standpunkte die Namen von Festpunkten geben, auf denen die anderen stehen, oder sie für sich aufmessen.</translation>
    </message>
    <message>
        <source>Give two or three numbers with blanks between them; the rest of the file was read.</source>
        <translation>Zwei oder drei Zahlen mit Leerzeichen dazwischen angeben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give zero or more, or empty the field; the rest of the file was read.</source>
        <translation>Null oder mehr angeben oder das Feld leeren; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Give {columns}, or z for a level mark; the rest of the file was read.</source>
        <translation>{columns} angeben, oder z für einen Höhenfestpunkt; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Gradient</source>
        <translation>Neigung</translation>
    </message>
    <message>
        <source>Gradient = rise by length in plan, positive up along the walk.</source>
        <translation>Neigung = Höhe durch Länge in der Lage, positiv aufwärts im Gehen.</translation>
    </message>
    <message>
        <source>Ground</source>
        <translation>Boden</translation>
    </message>
    <message>
        <source>Ground Tally</source>
        <translation>Ground Tally</translation>
    </message>
    <message>
        <source>Ground inside them is left out: buildings, ponds.</source>
        <translation>Boden darin wird ausgelassen: Gebäude, Teiche.</translation>
    </message>
    <message>
        <source>Ground outside it is left out.</source>
        <translation>Boden außerhalb wird ausgelassen.</translation>
    </message>
    <message>
        <source>Ground outside the survey&apos;s areas of that surface is left out; without it, ground between separate features is bridged.</source>
        <translation>Boden außerhalb der Flächen des Aufmaßes mit dieser Oberfläche wird ausgelassen; ohne dies wird der Boden zwischen getrennten Objekten überbrückt.</translation>
    </message>
    <message>
        <source>Guide</source>
        <translation>Anleitung</translation>
    </message>
    <message>
        <source>Half to each side</source>
        <translation>Je zur Hälfte nach beiden Seiten</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>Height from which a licensed designer is asked for, metres</source>
        <translation>Höhe, ab der zugelassene Planende verlangt sind, Meter</translation>
    </message>
    <message>
        <source>Height known</source>
        <translation>Höhe bekannt</translation>
    </message>
    <message>
        <source>Height of a course, metres</source>
        <translation>Höhe einer Schicht, Meter</translation>
    </message>
    <message>
        <source>Height of a wall without a top line, metres</source>
        <translation>Höhe einer Mauer ohne Kronenlinie, Meter</translation>
    </message>
    <message>
        <source>Height of the ground above the ellipsoid, metres</source>
        <translation>Höhe des Bodens über dem Ellipsoid, Meter</translation>
    </message>
    <message>
        <source>Height of the ground at the station, the pole taken off, after the adjustment and the shift to the levels: {z}</source>
        <translation>Höhe des Bodens am Standpunkt, die Stabhöhe abgezogen, nach der Ausgleichung und der Verschiebung auf die Höhenfestpunkte: {z}</translation>
    </message>
    <message>
        <source>Heights</source>
        <translation>Höhen</translation>
    </message>
    <message>
        <source>Held against</source>
        <translation>Verglichen mit</translation>
    </message>
    <message>
        <source>Hole {n}:</source>
        <translation>Aussparung {n}:</translation>
    </message>
    <message>
        <source>How far all its heights together may lie off the level, plane or surface it is measured to.</source>
        <translation>Wie weit alle ihre Höhen zusammen neben der Höhe, Ebene oder Oberfläche liegen können, zu der gemessen wird.</translation>
    </message>
    <message>
        <source>How far the picture may lie off as a whole: it moves the site, not its size.</source>
        <translation>Wie weit das Bild als Ganzes daneben liegen kann: es verschiebt das Gelände, nicht seine Größe.</translation>
    </message>
    <message>
        <source>How it was come by: {method}.</source>
        <translation>Wie es zustande kam: {method}.</translation>
    </message>
    <message>
        <source>How much wider it is under the slab.</source>
        <translation>Um wie viel er unter der Platte breiter ist.</translation>
    </message>
    <message>
        <source>How steep areas and lines are, and where they fall to, whatever the layer&apos;s CRS: as ratio, percent, degrees and 1 in n, each with its one-sigma.

Of an area it is the least-squares plane through its own points, or over all of its ground where a surface is given; of a line the gradient from its start to its end. A direction gives the fall along a way and the crossfall, positive to the right; of a line over a surface the crossfall is that of the surface across its width, and without one that of the triangles under it, its mean and the greatest. flattest and steepest are those of its sides, of its triangles, or of the line&apos;s edges. What all heights have in common is in no gradient.

Areas by slope tells how much of each area over a surface is how steep, in bands of slope: every m2 is in one. Crossfalls along lines has them by chainage.

Gradients of ramps, steps and paths follow local codes and a licensed practitioner&apos;s judgement. Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation>Wie steil Flächen und Linien sind und wohin sie fallen, in jedem KBS des Layers: als Verhältnis, Prozent, Grad und 1 : n, jedes mit seiner Standardabweichung.

Bei einer Fläche ist es die Ebene der kleinsten Quadrate durch ihre eigenen Punkte, oder über ihren ganzen Boden, wo eine Oberfläche angegeben ist; bei einer Linie die Neigung von ihrem Anfang zu ihrem Ende. Eine Richtung gibt das Gefälle entlang einem Weg und das Quergefälle, positiv nach rechts; bei einer Linie über einer Oberfläche ist das Quergefälle das der Oberfläche über ihre Breite, und ohne Breite das der Dreiecke unter ihr, sein Mittel und das größte. flattest und steepest sind die ihrer Seiten, ihrer Dreiecke oder der Kanten der Linie. Was alle Höhen gemeinsam haben, steckt in keiner Neigung.

„Flächen nach Neigung“ sagt, wie viel jeder Fläche über einer Oberfläche wie steil ist, in Neigungsklassen: jeder m2 liegt in einer. „Quergefälle entlang von Linien“ hat diese nach Stationierung.

Neigungen von Rampen, Treppen und Wegen folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute. Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>If it is a point list, put its column names in the first line; if it is a log, see its header. Else take it away.</source>
        <translation>Ist es eine Punktliste, ihre Spaltennamen in die erste Zeile schreiben; ist es ein Protokoll, auf seine Kopfzeile sehen. Sonst wegnehmen.</translation>
    </message>
    <message>
        <source>If it is none, give the two another `surface` or `option`; if it is, name the area in `hole_in`.</source>
        <translation>Ist es keine, den beiden eine andere `surface` oder `option` geben; ist es eine, die Fläche in `hole_in` nennen.</translation>
    </message>
    <message>
        <source>In metres, several stems with + between, such as 0.12+0.15; it goes before the numbers above.</source>
        <translation>In Metern, mehrere Stämme mit + dazwischen, etwa 0.12+0.15; es geht den obigen Zahlen vor.</translation>
    </message>
    <message>
        <source>In plan. Lines that pass a point within this go through it.</source>
        <translation>In der Lage. Linien, die näher als dies an einem Punkt vorbeigehen, gehen durch ihn.</translation>
    </message>
    <message>
        <source>In plan; the two places count as exact.</source>
        <translation>In der Lage; die zwei Stellen gelten als exakt.</translation>
    </message>
    <message>
        <source>In the datum of the corners&apos; heights, in metres. Where it is given, the thickness varies, and the even one is not used.</source>
        <translation>Im Höhenbezugssystem der Eckenhöhen, in Metern. Wo sie angegeben ist, ändert sich die Dicke, und die gleichmäßige wird nicht verwendet.</translation>
    </message>
    <message>
        <source>In the datum of the ground&apos;s heights. It may come from a field.</source>
        <translation>Im Höhenbezugssystem der Bodenhöhen. Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>Inches of rise to a foot of run.</source>
        <translation>Zoll Höhe je Fuß Länge.</translation>
    </message>
    <message>
        <source>Inches per foot</source>
        <translation>Zoll je Fuß</translation>
    </message>
    <message>
        <source>Install it (apt install python3-{library}) and start QGIS again.</source>
        <translation>Installieren (apt install python3-{library}) und QGIS neu starten.</translation>
    </message>
    <message>
        <source>Install it (the package python3-{library} in OSGeo4W Setup) and start QGIS again.</source>
        <translation>Installieren (das Paket python3-{library} im OSGeo4W-Setup) und QGIS neu starten.</translation>
    </message>
    <message>
        <source>Install it for the Python that QGIS runs in and start QGIS again.</source>
        <translation>Für das Python installieren, in dem QGIS läuft, und QGIS neu starten.</translation>
    </message>
    <message>
        <source>Install {library} and run again.</source>
        <translation>{library} installieren und noch einmal starten.</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Instrument ASSUMED: nobody said what it is worth, so these figures are a guess.</source>
        <translation>Gerät ANGENOMMEN: niemand hat gesagt, was es leistet; diese Maße sind eine Schätzung.</translation>
    </message>
    <message>
        <source>Instrument: from the accuracy stated.</source>
        <translation>Gerät: aus der angegebenen Genauigkeit.</translation>
    </message>
    <message>
        <source>Instrument: from the file.</source>
        <translation>Gerät: aus der Datei.</translation>
    </message>
    <message>
        <source>Instruments</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>Interval along the baseline, metres</source>
        <translation>Abstand entlang der Achse, Meter</translation>
    </message>
    <message>
        <source>Interval of contours, metres</source>
        <translation>Abstand der Höhenlinien, Meter</translation>
    </message>
    <message>
        <source>It crosses weak triangles.</source>
        <translation>Sie kreuzt schwache Dreiecke.</translation>
    </message>
    <message>
        <source>It does not say where it lies, so it is not used.</source>
        <translation>Es sagt nicht, wo es liegt, und wird daher nicht verwendet.</translation>
    </message>
    <message>
        <source>It falls to the bearing {bearing}, clockwise from grid north (the grid is turned by {turn}).</source>
        <translation>Es fällt in Richtung {bearing}, im Uhrzeigersinn von Gitternord (das Gitter ist um {turn} gedreht).</translation>
    </message>
    <message>
        <source>It is in strip, cut and fill.</source>
        <translation>Sie steckt in Oberbodenabtrag, Abtrag und Auftrag.</translation>
    </message>
    <message>
        <source>It is the local code&apos;s to say; 0 for none. RW-01 asks where it may be passed by more than 5 %.</source>
        <translation>Das sagt die örtliche Vorschrift; 0 für keine. RW-01 fragt, wo sie mit mehr als 5 % Wahrscheinlichkeit überschritten wird.</translation>
    </message>
    <message>
        <source>It is the worst of {n}.</source>
        <translation>Es ist die schlechteste von {n}.</translation>
    </message>
    <message>
        <source>It may come from a field.</source>
        <translation>Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>It may come from a field; of a survey&apos;s lengths 0 takes the height noted on site.</source>
        <translation>Darf aus einem Feld kommen; bei den Längen eines Aufmaßes nimmt 0 die vor Ort notierte Höhe.</translation>
    </message>
    <message>
        <source>It may come from a field; of a survey&apos;s rows 0 takes the width noted on site.</source>
        <translation>Darf aus einem Feld kommen; bei den Zeilen eines Aufmaßes nimmt 0 die vor Ort notierte Breite.</translation>
    </message>
    <message>
        <source>It needs {n} stations at least. {hint}</source>
        <translation>Es braucht mindestens {n} Standpunkte. {hint}</translation>
    </message>
    <message>
        <source>It reaches farther than a kilometre from its middle, so it is measured along geodesics.</source>
        <translation>Es reicht weiter als einen Kilometer von seiner Mitte und wird daher entlang geodätischer Linien gemessen.</translation>
    </message>
    <message>
        <source>It should close within {gap:.3f} m (one sigma).</source>
        <translation>Sie sollte auf {gap:.3f} m schließen (eine Standardabweichung).</translation>
    </message>
    <message>
        <source>It takes: {answers}.</source>
        <translation>Angenommen wird: {answers}.</translation>
    </message>
    <message>
        <source>Its &amp;units</source>
        <translation>Ihre &amp;Einheiten</translation>
    </message>
    <message>
        <source>Its areas and lengths are told apart by their parts and risers, with the survey&apos;s own sigma.</source>
        <translation>Seine Flächen und Längen werden an ihren Teilen und Setzstufen unterschieden, mit der Standardabweichung des Aufmaßes.</translation>
    </message>
    <message>
        <source>Its ellipse, one sigma: {major} along the bearing {bearing}, {minor} across. 2.448 of the long one are the 95 %.</source>
        <translation>Seine Ellipse, eine Standardabweichung: {major} in Richtung {bearing}, {minor} quer. Das 2,448-Fache der langen sind die 95 %.</translation>
    </message>
    <message>
        <source>Its layer does not say what a height is worth</source>
        <translation>Sein Layer sagt nicht, was eine Höhe wert ist</translation>
    </message>
    <message>
        <source>Its name in the file of instruments; where that holds one only, it is taken.</source>
        <translation>Sein Name in der Gerätedatei; enthält diese nur eines, wird es genommen.</translation>
    </message>
    <message>
        <source>Its spots, marks, stations on the way and walked edges of the surface named below are taken too.</source>
        <translation>Auch seine Einzelpunkte, Festpunkte, Standpunkte unterwegs und begangenen Kanten der unten genannten Oberfläche werden genommen.</translation>
    </message>
    <message>
        <source>Join the two, or move their common edge.</source>
        <translation>Die beiden vereinigen oder ihre gemeinsame Kante verschieben.</translation>
    </message>
    <message>
        <source>Keep one of the two lines; the rest of the file was read.</source>
        <translation>Eine der beiden Zeilen behalten; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Labels show lengths in</source>
        <translation>Beschriftungen zeigen Längen in</translation>
    </message>
    <message>
        <source>Laid under the survey. The one picture in the logs&apos; folder is taken where none is named.</source>
        <translation>Liegt unter dem Aufmaß. Wo keines genannt ist, wird das eine Bild im Ordner der Protokolle genommen.</translation>
    </message>
    <message>
        <source>LandXML</source>
        <translation>LandXML</translation>
    </message>
    <message>
        <source>Lap of mesh sheets, metres</source>
        <translation>Überlappung der Matten, Meter</translation>
    </message>
    <message>
        <source>Largest distance between a chord and its arc, metres</source>
        <translation>Größter Abstand zwischen einer Sehne und ihrem Bogen, Meter</translation>
    </message>
    <message>
        <source>Largest distance of a vertex from its straight or arc, metres</source>
        <translation>Größter Abstand eines Stützpunkts von seiner Geraden oder seinem Bogen, Meter</translation>
    </message>
    <message>
        <source>Largest distance of an outline&apos;s point from its plane, metres</source>
        <translation>Größter Abstand eines Umrisspunkts von seiner Ebene, Meter</translation>
    </message>
    <message>
        <source>Largest radius, metres</source>
        <translation>Größter Radius, Meter</translation>
    </message>
    <message>
        <source>Largest rise of a curve over one straight unit, metres</source>
        <translation>Größter Stich einer Kurve über einem geraden Stein, Meter</translation>
    </message>
    <message>
        <source>Latitude</source>
        <translation>Geographische Breite</translation>
    </message>
    <message>
        <source>Layers of triangles with heights, or meshes. Depths are of the first below it.</source>
        <translation>Layer aus Dreiecken mit Höhen, oder Netze. Tiefen sind die unter der ersten.</translation>
    </message>
    <message>
        <source>Left of a line, outside an area</source>
        <translation>Links einer Linie, außerhalb einer Fläche</translation>
    </message>
    <message>
        <source>Left of its line, a top edge</source>
        <translation>Links seiner Linie, einer Oberkante</translation>
    </message>
    <message>
        <source>Left of its line, the front</source>
        <translation>Links ihrer Linie, der Vorderseite</translation>
    </message>
    <message>
        <source>Leg length</source>
        <translation>Länge der Strecke</translation>
    </message>
    <message>
        <source>Legs</source>
        <translation>Strecken</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>Length = sum of the edges in plan, true to the ground; an arc is r·θ, θ in radians.</source>
        <translation>Länge = Summe der Kanten in der Lage, wahr am Boden; ein Bogen ist r·θ, θ im Bogenmaß.</translation>
    </message>
    <message>
        <source>Length along the slope</source>
        <translation>Länge in der Neigung</translation>
    </message>
    <message>
        <source>Length along the slope = sum over the edges of √(length in plan² + rise²).</source>
        <translation>Länge in der Neigung = Summe über die Kanten von √(Länge in der Lage² + Höhenunterschied²).</translation>
    </message>
    <message>
        <source>Length in plan</source>
        <translation>Länge in der Lage</translation>
    </message>
    <message>
        <source>Length of a mesh sheet, metres</source>
        <translation>Länge einer Matte, Meter</translation>
    </message>
    <message>
        <source>Length of a roll of turf, metres</source>
        <translation>Länge einer Rolle Rasen, Meter</translation>
    </message>
    <message>
        <source>Length of a straight unit, metres</source>
        <translation>Länge eines geraden Steins, Meter</translation>
    </message>
    <message>
        <source>Lengths</source>
        <translation>Längen</translation>
    </message>
    <message>
        <source>Lengths between marks, to check the walks against.</source>
        <translation>Längen zwischen Festpunkten, um die Begehungen daran zu prüfen.</translation>
    </message>
    <message>
        <source>Lengths of the survey that no limit of the table is of: {count}. They have no row.</source>
        <translation>Längen des Aufmaßes, für die kein Grenzwert der Tabelle gilt: {count}. Sie haben keine Zeile.</translation>
    </message>
    <message>
        <source>Level</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>Level of a flat underside, metres</source>
        <translation>Höhe einer ebenen Unterseite, Meter</translation>
    </message>
    <message>
        <source>Level of the invert at the line&apos;s end, metres</source>
        <translation>Sohlhöhe am Ende der Linie, Meter</translation>
    </message>
    <message>
        <source>Level of the invert at the line&apos;s start, metres</source>
        <translation>Sohlhöhe am Anfang der Linie, Meter</translation>
    </message>
    <message>
        <source>Levels</source>
        <translation>Höhen</translation>
    </message>
    <message>
        <source>Lies off</source>
        <translation>Liegt daneben</translation>
    </message>
    <message>
        <source>Limit: {source} ({seen}). {note}</source>
        <translation>Grenzwert: {source} ({seen}). {note}</translation>
    </message>
    <message>
        <source>Limits in {name}: {n}.</source>
        <translation>Grenzwerte in {name}: {n}.</translation>
    </message>
    <message>
        <source>Limits that hold here</source>
        <translation>Grenzwerte, die hier gelten</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Linien</translation>
    </message>
    <message>
        <source>Lines along the outer edge, or along a part of it, such as rows of a survey&apos;s sides; without it all round.</source>
        <translation>Linien entlang dem äußeren Rand oder einem Teil davon, etwa Zeilen der Seiten eines Aufmaßes; ohne sie ringsum.</translation>
    </message>
    <message>
        <source>Lines and outlines with heights: kerbs, tops and feet of banks. Arcs are taken in chords of 2 mm.</source>
        <translation>Linien und Umrisse mit Höhen: Bordsteine, Kronen und Füße von Böschungen. Bögen werden in Sehnen von 2 mm genommen.</translation>
    </message>
    <message>
        <source>Lines of one name are parts of one feature.</source>
        <translation>Linien eines Namens sind Teile eines Objekts.</translation>
    </message>
    <message>
        <source>Lines of one walk are walked one after the other.</source>
        <translation>Linien einer Begehung werden nacheinander gegangen.</translation>
    </message>
    <message>
        <source>Lines of trenches and swales</source>
        <translation>Linien von Gräben und Mulden</translation>
    </message>
    <message>
        <source>Lines of walls</source>
        <translation>Linien von Mauern</translation>
    </message>
    <message>
        <source>Lines or areas</source>
        <translation>Linien oder Flächen</translation>
    </message>
    <message>
        <source>Lines to cut along</source>
        <translation>Linien, entlang denen geschnitten wird</translation>
    </message>
    <message>
        <source>Lines with heights: each nosing, and the foot of each riser.</source>
        <translation>Linien mit Höhen: jede Trittkante und der Fuß jeder Setzstufe.</translation>
    </message>
    <message>
        <source>Lines with heights: parts foot and top of one feature.</source>
        <translation>Linien mit Höhen: Teile foot und top eines Objekts.</translation>
    </message>
    <message>
        <source>Lines with heights: the middle, or parts left and right of one feature.</source>
        <translation>Linien mit Höhen: die Mitte, oder Teile left und right eines Objekts.</translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2), or delete point {corner} ({without:.3f} m2).</source>
        <translation>Die Punkte {first} bis {last} in umgekehrter Folge ordnen ({reverse:.3f} m2) oder Punkt {corner} löschen ({without:.3f} m2).</translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2), or split it there ({one:.3f} and {two:.3f} m2).</source>
        <translation>Die Punkte {first} bis {last} in umgekehrter Folge ordnen ({reverse:.3f} m2) oder dort teilen ({one:.3f} und {two:.3f} m2).</translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2), split it there ({one:.3f} and {two:.3f} m2), or delete point {corner} ({without:.3f} m2).</source>
        <translation>Die Punkte {first} bis {last} in umgekehrter Folge ordnen ({reverse:.3f} m2), dort teilen ({one:.3f} und {two:.3f} m2) oder Punkt {corner} löschen ({without:.3f} m2).</translation>
    </message>
    <message>
        <source>List points {first} to {last} in reverse order ({reverse:.3f} m2).</source>
        <translation>Die Punkte {first} bis {last} in umgekehrter Folge ordnen ({reverse:.3f} m2).</translation>
    </message>
    <message>
        <source>List the points of that loop in reverse order, or split the outline.</source>
        <translation>Die Punkte dieser Schleife in umgekehrter Folge ordnen oder den Umriss teilen.</translation>
    </message>
    <message>
        <source>Logs (files, or the folder they lie in)</source>
        <translation>Protokolle (Dateien, oder der Ordner, in dem sie liegen)</translation>
    </message>
    <message>
        <source>Logs in a CRS are measured on the ground at a height of {height:.1f} m (the mean of their own heights, or 0 where they have none): each 100 m above makes true lengths 1.6e-5 longer.</source>
        <translation>Protokolle in einem KBS werden am Boden in einer Höhe von {height:.1f} m gemessen (dem Mittel ihrer eigenen Höhen, oder 0, wo sie keine haben): je 100 m darüber werden wahre Längen um 1.6e-5 länger.</translation>
    </message>
    <message>
        <source>Longest bay, in thicknesses</source>
        <translation>Längstes Feld, in Dicken</translation>
    </message>
    <message>
        <source>Longest side of a triangle of the rim, metres</source>
        <translation>Längste Seite eines Dreiecks am Rand, Meter</translation>
    </message>
    <message>
        <source>Longitude</source>
        <translation>Geographische Länge</translation>
    </message>
    <message>
        <source>Look at the pairs and at this point on the picture: one of them is a wrong point, or two are exchanged.</source>
        <translation>Die Paare und diesen Punkt auf dem Bild ansehen: einer ist ein falscher Punkt, oder zwei sind getauscht.</translation>
    </message>
    <message>
        <source>Look at these legs; the misclosure is spread as it stands unless the walk is mended.</source>
        <translation>Diese Strecken ansehen; der Abschlussfehler wird verteilt, wie er ist, solange die Begehung nicht berichtigt wird.</translation>
    </message>
    <message>
        <source>Look first at the lines named; the rest of the file was read.</source>
        <translation>Zuerst die genannten Zeilen ansehen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Look first at those that are named, or confirm with: as recorded.</source>
        <translation>Zuerst die genannten ansehen oder bestätigen mit: as recorded.</translation>
    </message>
    <message>
        <source>Look first at those that are told.</source>
        <translation>Zuerst die gemeldeten ansehen.</translation>
    </message>
    <message>
        <source>Look whether triangles are missing, hidden or doubled.</source>
        <translation>Nachsehen, ob Dreiecke fehlen, versteckt oder doppelt sind.</translation>
    </message>
    <message>
        <source>Look which way round it lies, or pick a third mark as a check.</source>
        <translation>Nachsehen, wie herum es liegt, oder einen dritten Festpunkt als Kontrolle abgreifen.</translation>
    </message>
    <message>
        <source>Looked for beside the logs where none is named.</source>
        <translation>Wo keine genannt ist, wird neben den Protokollen gesucht.</translation>
    </message>
    <message>
        <source>Looking along the baseline.</source>
        <translation>In Richtung der Achse gesehen.</translation>
    </message>
    <message>
        <source>Looking at the files...</source>
        <translation>Die Dateien werden angesehen...</translation>
    </message>
    <message>
        <source>Made of</source>
        <translation>Setzt sich zusammen aus</translation>
    </message>
    <message>
        <source>Making: {title}</source>
        <translation>Es entsteht: {title}</translation>
    </message>
    <message>
        <source>Map point, one sigma</source>
        <translation>Kartenpunkt, eine Standardabweichung</translation>
    </message>
    <message>
        <source>Mark</source>
        <translation>Festpunkt</translation>
    </message>
    <message>
        <source>Mark paired with the map</source>
        <translation>Festpunkt mit der Karte gepaart</translation>
    </message>
    <message>
        <source>Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it (the same could be said of {also}).</source>
        <translation>Festpunkt {mark}, wie in Begehung {walk} am Standpunkt {station} darauf gestanden wurde, liegt {size:.3f} m von der Stelle, die sich aus dem Übrigen ergibt (dasselbe gilt für {also}).</translation>
    </message>
    <message>
        <source>Mark {mark} as stood on in walk {walk} at station {station} is {size:.3f} m from where the rest puts it.</source>
        <translation>Festpunkt {mark}, wie in Begehung {walk} am Standpunkt {station} darauf gestanden wurde, liegt {size:.3f} m von der Stelle, die sich aus dem Übrigen ergibt.</translation>
    </message>
    <message>
        <source>Mark {mark} is stood on once, in walk {walk}, and no other file knows it. Is it {like}?</source>
        <translation>Auf dem Festpunkt {mark} wird nur einmal gestanden, in Begehung {walk}, und keine andere Datei kennt ihn. Ist {like} gemeint?</translation>
    </message>
    <message>
        <source>Mark {mark} is there already.</source>
        <translation>Festpunkt {mark} ist schon da.</translation>
    </message>
    <message>
        <source>Marks</source>
        <translation>Festpunkte</translation>
    </message>
    <message>
        <source>Marks (points)</source>
        <translation>Festpunkte (Punkte)</translation>
    </message>
    <message>
        <source>Marks and the map points they belong to.</source>
        <translation>Festpunkte und die Kartenpunkte, zu denen sie gehören.</translation>
    </message>
    <message>
        <source>Measure</source>
        <translation>Messen</translation>
    </message>
    <message>
        <source>Measure a layer of the right kind, or redraw it.</source>
        <translation>Einen Layer der richtigen Art messen oder neu zeichnen.</translation>
    </message>
    <message>
        <source>Measure areas</source>
        <translation>Flächen messen</translation>
    </message>
    <message>
        <source>Measure faces</source>
        <translation>Ansichtsflächen messen</translation>
    </message>
    <message>
        <source>Measure gradients</source>
        <translation>Neigungen messen</translation>
    </message>
    <message>
        <source>Measure it again with an instrument, or use it for a budget figure only.</source>
        <translation>Mit einem Gerät neu messen oder nur zum Überschlag verwenden.</translation>
    </message>
    <message>
        <source>Measure lengths</source>
        <translation>Längen messen</translation>
    </message>
    <message>
        <source>Measure slabs</source>
        <translation>Platten messen</translation>
    </message>
    <message>
        <source>Measure strips</source>
        <translation>Streifen messen</translation>
    </message>
    <message>
        <source>Measure them with an instrument where that matters.</source>
        <translation>Mit einem Gerät messen, wo es darauf ankommt.</translation>
    </message>
    <message>
        <source>Measure trenches and swales</source>
        <translation>Gräben und Mulden messen</translation>
    </message>
    <message>
        <source>Measure volumes</source>
        <translation>Volumen messen</translation>
    </message>
    <message>
        <source>Measure walls</source>
        <translation>Mauern messen</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Gemessen</translation>
    </message>
    <message>
        <source>Measured areas</source>
        <translation>Gemessene Flächen</translation>
    </message>
    <message>
        <source>Measured faces</source>
        <translation>Gemessene Ansichtsflächen</translation>
    </message>
    <message>
        <source>Measured gradients</source>
        <translation>Gemessene Neigungen</translation>
    </message>
    <message>
        <source>Measured lengths</source>
        <translation>Gemessene Längen</translation>
    </message>
    <message>
        <source>Measured slabs</source>
        <translation>Gemessene Platten</translation>
    </message>
    <message>
        <source>Measured strips</source>
        <translation>Gemessene Streifen</translation>
    </message>
    <message>
        <source>Measured trenches and swales</source>
        <translation>Gemessene Gräben und Mulden</translation>
    </message>
    <message>
        <source>Measured walls</source>
        <translation>Gemessene Mauern</translation>
    </message>
    <message>
        <source>Measured: {method}; its uncertainty is from: {sigma_from}.</source>
        <translation>Gemessen: {method}; die Unsicherheit kommt aus: {sigma_from}.</translation>
    </message>
    <message>
        <source>Measuring</source>
        <translation>Es wird gemessen</translation>
    </message>
    <message>
        <source>Merge points within, metres</source>
        <translation>Punkte zusammenlegen innerhalb von, Meter</translation>
    </message>
    <message>
        <source>Mesh</source>
        <translation>Netz</translation>
    </message>
    <message>
        <source>Mesh file</source>
        <translation>Netzdatei</translation>
    </message>
    <message>
        <source>Misclosure in height</source>
        <translation>Abschlussfehler in der Höhe</translation>
    </message>
    <message>
        <source>Misclosure in plan</source>
        <translation>Abschlussfehler in der Lage</translation>
    </message>
    <message>
        <source>Misclosures</source>
        <translation>Abschlussfehler</translation>
    </message>
    <message>
        <source>More plants for losses, percent</source>
        <translation>Mehr Pflanzen für Ausfälle, Prozent</translation>
    </message>
    <message>
        <source>More stands on shared marks show smaller blunders.</source>
        <translation>Mehr Stände auf gemeinsamen Festpunkten zeigen kleinere Fehler.</translation>
    </message>
    <message>
        <source>More than one is given to measure to: {given}. Choose one of them.</source>
        <translation>Zum Messen ist mehr als ein Ziel angegeben: {given}. Eines davon wählen.</translation>
    </message>
    <message>
        <source>Move it inside, or make it a part of its own.</source>
        <translation>Nach innen verschieben oder zu einem eigenen Teil machen.</translation>
    </message>
    <message>
        <source>Move one of them, or join them: a hole lies inside its outer ring, and parts lie apart.</source>
        <translation>Einen von ihnen verschieben oder beide vereinigen: eine Aussparung liegt in ihrem äußeren Ring, und Teile liegen getrennt.</translation>
    </message>
    <message>
        <source>Move that point to where it belongs, or delete it.</source>
        <translation>Den Punkt dorthin verschieben, wohin er gehört, oder löschen.</translation>
    </message>
    <message>
        <source>Move the middle point between the ends, or draw a straight.</source>
        <translation>Den mittleren Punkt zwischen die Enden verschieben oder eine Gerade zeichnen.</translation>
    </message>
    <message>
        <source>Moved out by {by:.3f} m the outline runs into itself. Give a smaller extra, or split the outline.</source>
        <translation>Um {by:.3f} m nach außen versetzt, läuft der Umriss in sich selbst. Einen kleineren Überstand angeben oder den Umriss teilen.</translation>
    </message>
    <message>
        <source>Moved out by {by:.3f} m two parts of the outline run into each other. Give a smaller extra, or join the parts.</source>
        <translation>Um {by:.3f} m nach außen versetzt, laufen zwei Teile des Umrisses ineinander. Einen kleineren Überstand angeben oder die Teile vereinigen.</translation>
    </message>
    <message>
        <source>N</source>
        <translation>N</translation>
    </message>
    <message>
        <source>NMEA 0183</source>
        <translation>NMEA 0183</translation>
    </message>
    <message>
        <source>Name field</source>
        <translation>Feld des Namens</translation>
    </message>
    <message>
        <source>Name of the surface</source>
        <translation>Name der Oberfläche</translation>
    </message>
    <message>
        <source>Name the area that it is a hole of in `hole_in`. Where two areas cover the same ground by mistake, correct their stations; where on purpose, give them another `surface` or `option`.</source>
        <translation>In `hole_in` die Fläche nennen, deren Aussparung es ist. Wo zwei Flächen aus Versehen denselben Boden bedecken, ihre Standpunkte berichtigen; wo mit Absicht, ihnen eine andere `surface` oder `option` geben.</translation>
    </message>
    <message>
        <source>Name the columns rightly, or answer for {place} with exchange or as recorded.</source>
        <translation>Die Spalten richtig benennen oder für {place} mit exchange oder as recorded antworten.</translation>
    </message>
    <message>
        <source>Name the surface&apos;s CRS in its file, or give the survey control. Read walks gives the surface by itself.</source>
        <translation>Das KBS der Oberfläche in ihrer Datei nennen oder dem Aufmaß Passpunkte geben. „Begehungen einlesen“ gibt die Oberfläche allein.</translation>
    </message>
    <message>
        <source>Name the survey that is to be made.</source>
        <translation>Das Aufmaß nennen, das entstehen soll.</translation>
    </message>
    <message>
        <source>Name three points of the surface by their ids; the rest of the file was read.</source>
        <translation>Drei Punkte der Oberfläche mit ihren ids nennen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Name two different marks; the rest of the file was read.</source>
        <translation>Zwei verschiedene Festpunkte nennen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Neither a log nor a table that lies beside logs.</source>
        <translation>Weder ein Protokoll noch eine Tabelle, die bei Protokollen liegt.</translation>
    </message>
    <message>
        <source>Net</source>
        <translation>Saldo</translation>
    </message>
    <message>
        <source>No accuracy is stated. Write it like 0.5 % or 0.02 m + 0.3 %, or choose assumed.</source>
        <translation>Es ist keine Genauigkeit angegeben. So schreiben: 0.5 % oder 0.02 m + 0.3 %, oder angenommen wählen.</translation>
    </message>
    <message>
        <source>No boundary is given: ground between separate features is bridged. Choose the survey&apos;s areas as boundary (Only inside the survey&apos;s areas), or draw one.</source>
        <translation>Es ist keine Begrenzung angegeben: der Boden zwischen getrennten Objekten wird überbrückt. Die Flächen des Aufmaßes als Begrenzung wählen („Nur innerhalb der Flächen des Aufmaßes“) oder eine zeichnen.</translation>
    </message>
    <message>
        <source>No control</source>
        <translation>Keine Passpunkte</translation>
    </message>
    <message>
        <source>No edge of the steps rises more than it runs, so that there is no riser. Walk a station at the foot of each riser and one on its nosing.</source>
        <translation>Keine Kante der Treppe steigt mehr, als sie lang ist; es gibt keine Setzstufe. Am Fuß jeder Setzstufe und auf ihrer Trittkante einen Standpunkt begehen.</translation>
    </message>
    <message>
        <source>No figure: it is kept out by {codes} until that is answered.</source>
        <translation>Kein Maß: es wird von {codes} zurückgehalten, bis das beantwortet ist.</translation>
    </message>
    <message>
        <source>No figure: there is nothing here to measure it from.</source>
        <translation>Kein Maß: hier ist nichts, woran es zu messen wäre.</translation>
    </message>
    <message>
        <source>No figure: {finding}</source>
        <translation>Kein Maß: {finding}</translation>
    </message>
    <message>
        <source>No file of instruments is named. Choose one, or choose assumed.</source>
        <translation>Es ist keine Gerätedatei genannt. Eine wählen, oder angenommen wählen.</translation>
    </message>
    <message>
        <source>No forecast yet: draw or choose a plan, then press Forecast.</source>
        <translation>Noch keine Vorhersage: einen Plan zeichnen oder wählen, dann „Vorhersagen“ drücken.</translation>
    </message>
    <message>
        <source>No forecast: {why}</source>
        <translation>Keine Vorhersage: {why}</translation>
    </message>
    <message>
        <source>No ground is left inside the boundary and outside the voids. Check that they lie where the levels are, and that all are in the CRS they say.</source>
        <translation>Innerhalb der Begrenzung und außerhalb der Aussparungen bleibt kein Boden. Prüfen, ob sie liegen, wo die Höhen sind, und ob alle in dem KBS sind, das sie nennen.</translation>
    </message>
    <message>
        <source>No ground of it lies on both surfaces. Move it, or extend the surfaces.</source>
        <translation>Kein Boden davon liegt auf beiden Oberflächen. Verschieben oder die Oberflächen weiter ausdehnen.</translation>
    </message>
    <message>
        <source>No ground of it lies on the surface. Move it, or extend the surface.</source>
        <translation>Kein Boden davon liegt auf der Oberfläche. Verschieben oder die Oberfläche weiter ausdehnen.</translation>
    </message>
    <message>
        <source>No ground of the outline lies on the surface. Move it, or extend the surface.</source>
        <translation>Kein Boden des Umrisses liegt auf der Oberfläche. Verschieben oder die Oberfläche weiter ausdehnen.</translation>
    </message>
    <message>
        <source>No ground of the surface lies under the way. Move it, or extend the surface.</source>
        <translation>Unter dem Weg liegt kein Boden der Oberfläche. Verschieben oder die Oberfläche weiter ausdehnen.</translation>
    </message>
    <message>
        <source>No instruments</source>
        <translation>Keine Geräte</translation>
    </message>
    <message>
        <source>No job yet: start one from the folder of its logs, or open a survey.</source>
        <translation>Noch keine Arbeit: eine aus dem Ordner ihrer Protokolle beginnen oder ein Aufmaß öffnen.</translation>
    </message>
    <message>
        <source>No level and no breakline is given. Choose a layer of points with heights.</source>
        <translation>Es ist weder eine Höhe noch eine Bruchkante angegeben. Einen Layer aus Punkten mit Höhen wählen.</translation>
    </message>
    <message>
        <source>No limit of the table is of it.</source>
        <translation>Kein Grenzwert der Tabelle gilt dafür.</translation>
    </message>
    <message>
        <source>No limit&apos;s name begins with &quot;{word}&quot;. The table has: {names}.</source>
        <translation>Kein Grenzwert hat einen Namen, der mit „{word}“ beginnt. Die Tabelle hat: {names}.</translation>
    </message>
    <message>
        <source>No log among them: a job needs walk logs, point lists, GPX, NMEA 0183 or LandXML.</source>
        <translation>Kein Protokoll darunter: eine Arbeit braucht Begehungsprotokolle, Punktlisten, GPX, NMEA 0183 oder LandXML.</translation>
    </message>
    <message>
        <source>No logs are named. Give log files, or the folder they lie in.</source>
        <translation>Es sind keine Protokolle genannt. Protokolldateien angeben oder den Ordner, in dem sie liegen.</translation>
    </message>
    <message>
        <source>No output is chosen. Choose one or more of: {names}.</source>
        <translation>Keine Ausgabe ist gewählt. Eine oder mehrere wählen von: {names}.</translation>
    </message>
    <message>
        <source>No picture</source>
        <translation>Kein Bild</translation>
    </message>
    <message>
        <source>No picture in the project: add one (a file, tiles or WMS), or give surveyed points as control.</source>
        <translation>Kein Bild im Projekt: eines hinzufügen (eine Datei, Kacheln oder WMS) oder eingemessene Punkte als Passpunkte angeben.</translation>
    </message>
    <message>
        <source>No point can be read so.</source>
        <translation>So ist kein Punkt lesbar.</translation>
    </message>
    <message>
        <source>No row of the logs can be read. IN-01, the first of {count}: {message} {remedy}</source>
        <translation>Keine Zeile der Protokolle ist lesbar. IN-01, der erste von {count}: {message} {remedy}</translation>
    </message>
    <message>
        <source>No row of the logs can be read. IN-01, the first of {count}: {message} {remedy} As a row of the decisions file: IN-01,{place},&quot;{answer}&quot;; or choose the columns before the run.</source>
        <translation>Keine Zeile der Protokolle ist lesbar. IN-01, der erste von {count}: {message} {remedy} Als Zeile der Entscheidungsdatei: IN-01,{place},&quot;{answer}&quot;; oder vor dem Lauf die Spalten wählen.</translation>
    </message>
    <message>
        <source>No station is within {within:g} m of mark {mark}: the nearest is {distance:.2f} m away. Draw a walk over it, allow a larger distance, or leave the mark out.</source>
        <translation>Kein Standpunkt liegt innerhalb von {within:g} m vom Festpunkt {mark}: der nächste ist {distance:.2f} m entfernt. Eine Begehung darüber zeichnen, einen größeren Abstand zulassen oder den Festpunkt weglassen.</translation>
    </message>
    <message>
        <source>No station of the plan stands on mark {mark}. Draw a walk over it, or leave it out.</source>
        <translation>Kein Standpunkt des Plans steht auf dem Festpunkt {mark}. Eine Begehung darüber zeichnen oder ihn weglassen.</translation>
    </message>
    <message>
        <source>No surface is given to cut. Choose one or more.</source>
        <translation>Es ist keine Oberfläche zum Schneiden angegeben. Eine oder mehrere wählen.</translation>
    </message>
    <message>
        <source>No surface is given. Choose a layer of triangles.</source>
        <translation>Es ist keine Oberfläche angegeben. Einen Layer aus Dreiecken wählen.</translation>
    </message>
    <message>
        <source>No surface yet: build one from the survey, or add a layer of triangles or a mesh to the project.</source>
        <translation>Noch keine Oberfläche: eine aus dem Aufmaß bilden oder dem Projekt einen Layer aus Dreiecken oder ein Netz hinzufügen.</translation>
    </message>
    <message>
        <source>No surface yet: build one, or add one to the project.</source>
        <translation>Noch keine Oberfläche: eine bilden oder dem Projekt eine hinzufügen.</translation>
    </message>
    <message>
        <source>No tapes</source>
        <translation>Keine Bandmaße</translation>
    </message>
    <message>
        <source>No thickened side runs along the outer edge: nothing is thickened. Draw its sides along it.</source>
        <translation>Keine verstärkte Seite läuft entlang dem äußeren Rand: nichts wird verstärkt. Die Seiten an ihm entlang zeichnen.</translation>
    </message>
    <message>
        <source>No walk is left to adjust. {code} at {place} ({file}, line {line}): {message} {remedy} Or answer it with a row in the decisions file: {code},{place},{answer}</source>
        <translation>Keine Begehung bleibt auszugleichen. {code} bei {place} ({file}, Zeile {line}): {message} {remedy} Oder mit einer Zeile in der Entscheidungsdatei beantworten: {code},{place},{answer}</translation>
    </message>
    <message>
        <source>No walk is left to adjust: none has a station that could be read.</source>
        <translation>Keine Begehung bleibt auszugleichen: keine hat einen lesbaren Standpunkt.</translation>
    </message>
    <message>
        <source>None needed.</source>
        <translation>Nichts zu tun.</translation>
    </message>
    <message>
        <source>None needed; let the receiver write RMC or ZDA to have the date.</source>
        <translation>Nichts zu tun; den Empfänger RMC oder ZDA schreiben lassen, um das Datum zu haben.</translation>
    </message>
    <message>
        <source>None needed; let the receiver write checksums.</source>
        <translation>Nichts zu tun; den Empfänger Prüfsummen schreiben lassen.</translation>
    </message>
    <message>
        <source>None needed; look at the track for gaps.</source>
        <translation>Nichts zu tun; die Spur auf Lücken ansehen.</translation>
    </message>
    <message>
        <source>None needed; take the GGA lines out to use RMC, without heights.</source>
        <translation>Nichts zu tun; die GGA-Zeilen entfernen, um RMC zu verwenden, ohne Höhen.</translation>
    </message>
    <message>
        <source>None needed; the accuracy is stated with the figure.</source>
        <translation>Nichts zu tun; die Genauigkeit steht beim Maß.</translation>
    </message>
    <message>
        <source>None needed; write them with Z if that is right.</source>
        <translation>Nichts zu tun; mit Z schreiben, wenn das stimmt.</translation>
    </message>
    <message>
        <source>None where it changes along the way. Else note the same at every station, or at one alone.</source>
        <translation>Nichts zu tun, wo es sich unterwegs ändert. Sonst an jedem Standpunkt dasselbe notieren, oder an einem allein.</translation>
    </message>
    <message>
        <source>Northing</source>
        <translation>Nordwert</translation>
    </message>
    <message>
        <source>Northings of metric grids have seven digits, eastings six. Hold the sketch against the site.</source>
        <translation>Nordwerte metrischer Gitter haben sieben Stellen, Ostwerte sechs. Die Skizze mit dem Gelände vergleichen.</translation>
    </message>
    <message>
        <source>Not checked yet: tick the limits that hold here, then press Check.</source>
        <translation>Noch nicht geprüft: die Grenzwerte ankreuzen, die hier gelten, dann „Prüfen“ drücken.</translation>
    </message>
    <message>
        <source>Not read, for these are no walk logs and no tables beside them: {files}.</source>
        <translation>Nicht gelesen, denn das sind weder Begehungsprotokolle noch Tabellen dazu: {files}.</translation>
    </message>
    <message>
        <source>Not taken: what stands above the ground leans away from its place in a picture. Pick its foot.</source>
        <translation>Nicht genommen: was über dem Boden steht, neigt sich in einem Bild von seinem Ort weg. Seinen Fuß abgreifen.</translation>
    </message>
    <message>
        <source>Note the same at every station or at one alone, or give the size where it is used.</source>
        <translation>An jedem Standpunkt dasselbe notieren oder an einem allein, oder die Größe dort angeben, wo sie verwendet wird.</translation>
    </message>
    <message>
        <source>Nothing checks walk {walk} after station {station}: errors grow to {far:.2f} m (95 %) at its last station.</source>
        <translation>Nach Standpunkt {station} prüft nichts die Begehung {walk}: Fehler wachsen bis {far:.2f} m (95 %) an ihrem letzten Standpunkt.</translation>
    </message>
    <message>
        <source>Nothing chosen yet.</source>
        <translation>Noch nichts gewählt.</translation>
    </message>
    <message>
        <source>Nothing fails, and nothing is left at cannot tell.</source>
        <translation>Alles ist bestanden, und nichts bleibt unentschieden.</translation>
    </message>
    <message>
        <source>Nothing has to be done where the face stands on that edge. Else correct the heights where the two lines cross.</source>
        <translation>Nichts zu tun, wo die Fläche auf dieser Kante steht. Sonst die Höhen berichtigen, wo sich die beiden Linien kreuzen.</translation>
    </message>
    <message>
        <source>Nothing has to be done; volumes over it are off by at most half that run times its height, per metre of its length. Draw foot and top apart where the face leans more.</source>
        <translation>Nichts zu tun; Volumen darüber weichen höchstens um die Hälfte dieses Versatzes mal ihrer Höhe ab, je Meter ihrer Länge. Fuß und Krone auseinander zeichnen, wo sich die Fläche stärker neigt.</translation>
    </message>
    <message>
        <source>Nothing in the marks of walk {walk} excludes: {what}.</source>
        <translation>Nichts in den Festpunkten der Begehung {walk} schließt aus: {what}.</translation>
    </message>
    <message>
        <source>Nothing in the numbers tells northing from easting; northing first is usual. Hold the sketch against the site.</source>
        <translation>Nichts in den Zahlen unterscheidet Nordwert und Ostwert; zuerst der Nordwert ist üblich. Die Skizze mit dem Gelände vergleichen.</translation>
    </message>
    <message>
        <source>Nothing is asked for: give a spacing, a depth of mulch, seed, or a roll.</source>
        <translation>Nichts ist verlangt: einen Abstand, eine Mulchdicke, Saatgut oder eine Rolle angeben.</translation>
    </message>
    <message>
        <source>Nothing is given to check: choose a survey or a layer.</source>
        <translation>Nichts ist zum Prüfen angegeben: ein Aufmaß oder einen Layer wählen.</translation>
    </message>
    <message>
        <source>Nothing is given to measure to: choose a surface, a level, or a plane.</source>
        <translation>Es ist nichts angegeben, zu dem gemessen wird: eine Oberfläche, eine Höhe oder eine Ebene wählen.</translation>
    </message>
    <message>
        <source>Nothing is left to plant: the row is shorter than its set-back at both ends. Give a smaller one.</source>
        <translation>Zum Pflanzen bleibt nichts: die Reihe ist kürzer als ihr Abstand an beiden Enden. Einen kleineren angeben.</translation>
    </message>
    <message>
        <source>Nothing is left to plant: the set-back takes all of the bed. Give a smaller one.</source>
        <translation>Zum Pflanzen bleibt nichts: der Randabstand nimmt das ganze Beet ein. Einen kleineren angeben.</translation>
    </message>
    <message>
        <source>Nothing is planned. Draw a line for each walk, through its stations in order.</source>
        <translation>Nichts ist geplant. Für jede Begehung eine Linie zeichnen, durch ihre Standpunkte der Reihe nach.</translation>
    </message>
    <message>
        <source>Nothing of {file} can be read. IN-01, the first of {count}: {message} {remedy}</source>
        <translation>Nichts in {file} ist lesbar. IN-01, der erste von {count}: {message} {remedy}</translation>
    </message>
    <message>
        <source>Nothing of {file} can be read. {message} {remedy}</source>
        <translation>Nichts in {file} ist lesbar. {message} {remedy}</translation>
    </message>
    <message>
        <source>Nothing shows which columns give a place: choose them.</source>
        <translation>Nichts zeigt, welche Spalten einen Ort geben: sie wählen.</translation>
    </message>
    <message>
        <source>Nothing surveyed yet: run the job.</source>
        <translation>Noch nichts aufgemessen: die Arbeit starten.</translation>
    </message>
    <message>
        <source>Nothing that one more mark, stand or tape could do helps by a hundredth.</source>
        <translation>Kein weiterer Festpunkt, Stand und kein weiteres Bandmaß hilft auch nur um ein Hundertstel.</translation>
    </message>
    <message>
        <source>Nothing ties the heights of {walks} to those of the others: they are as {file} gives them. Slopes and falls within each are right, heights of one against another hang on the same datum in both.</source>
        <translation>Nichts verbindet die Höhen von {walks} mit denen der anderen: sie bleiben, wie {file} sie angibt. Neigungen und Gefälle innerhalb einer jeden stimmen; Höhen der einen gegen die andere gelten nur, wenn beide dasselbe Höhenbezugssystem haben.</translation>
    </message>
    <message>
        <source>Nothing ties the heights of {walks} to those of the others: those of walks that count from where they began are left out.</source>
        <translation>Nichts verbindet die Höhen von {walks} mit denen der anderen: die Höhen von Begehungen, die von ihrem Anfang aus zählen, werden weggelassen.</translation>
    </message>
    <message>
        <source>Nothing with a working lies there. Click on an edge, inside an area, or on a station.</source>
        <translation>Dort liegt nichts mit einem Rechenweg. Auf eine Kante, in eine Fläche oder auf einen Standpunkt klicken.</translation>
    </message>
    <message>
        <source>Nothing, if that is meant so.</source>
        <translation>Nichts, wenn es so gemeint ist.</translation>
    </message>
    <message>
        <source>Nothing, if that side is straight; a walk back to the first corner would check the outline.</source>
        <translation>Nichts, wenn diese Seite gerade ist; ein Gang zurück zur ersten Ecke würde den Umriss prüfen.</translation>
    </message>
    <message>
        <source>Number</source>
        <translation>Nummer</translation>
    </message>
    <message>
        <source>Number of stems</source>
        <translation>Zahl der Stämme</translation>
    </message>
    <message>
        <source>Of a bench mark or a datum: a step in height within this is nothing to be told.</source>
        <translation>Eines Höhenfestpunkts oder Höhenbezugssystems: ein Höhensprung innerhalb davon wird nicht gemeldet.</translation>
    </message>
    <message>
        <source>Of a bench mark or a datum: it is in the levels alone.</source>
        <translation>Eines Höhenfestpunkts oder Höhenbezugssystems: sie steckt nur in den Höhen.</translation>
    </message>
    <message>
        <source>Of a bench mark or a datum: it is in the levels, and cancels in rises and depths.</source>
        <translation>Eines Höhenfestpunkts oder Höhenbezugssystems: sie steckt in den Höhen und hebt sich in Höhenunterschieden und Tiefen auf.</translation>
    </message>
    <message>
        <source>Of a course that is wider than its area; arcs keep their centre, corners are mitred, holes stay.</source>
        <translation>Bei einer Schicht, die breiter ist als ihre Fläche; Bögen behalten ihren Mittelpunkt, Ecken gehen auf Gehrung, Aussparungen bleiben.</translation>
    </message>
    <message>
        <source>Of a row at both its ends. It may come from a field.</source>
        <translation>Bei einer Reihe an beiden Enden. Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>Of a survey&apos;s lengths the levels noted on site count where it is empty.</source>
        <translation>Bei den Längen eines Aufmaßes gelten die vor Ort notierten Höhen, wo es leer ist.</translation>
    </message>
    <message>
        <source>Of an arc, its chord in that sum, and beside it the segment (θ - sin θ)·r² / 2.</source>
        <translation>Von einem Bogen steht die Sehne in dieser Summe und daneben der Abschnitt (θ - sin θ)·r² / 2.</translation>
    </message>
    <message>
        <source>Of depths by class; they count from 0.</source>
        <translation>Der Tiefen nach Klassen; sie zählen ab 0.</translation>
    </message>
    <message>
        <source>Of height, from one contour to the next; they count from 0.</source>
        <translation>Höhe von einer Höhenlinie zur nächsten; sie zählen ab 0.</translation>
    </message>
    <message>
        <source>Of kerbs, blocks or capping along the front; 0 for none.</source>
        <translation>Von Bordsteinen, Blöcken oder Abdeckplatten entlang der Vorderseite; 0 für keine.</translation>
    </message>
    <message>
        <source>Of lines of layers. It is an assumption; a survey&apos;s own edges bring theirs.</source>
        <translation>Von Linien aus Layern. Es ist eine Annahme; die Kanten eines Aufmaßes bringen ihre eigene mit.</translation>
    </message>
    <message>
        <source>Of points of layers, and of surfaces that do not say it; the rows of a survey bring their own. It is an assumption: a level and a staff on hard ground give 3 mm, as for what is levelled to be checked. A layer that was drawn from a picture or a plan is worth less: 0.1 m is what walls and trenches take for it, and with that most checks cannot tell.</source>
        <translation>Von Punkten aus Layern, und von Oberflächen, die sie nicht nennen; die Zeilen eines Aufmaßes bringen ihre eigene mit. Es ist eine Annahme: Nivelliergerät und Latte auf festem Boden geben 3 mm, wie bei dem, was zum Prüfen nivelliert wird. Ein Layer, der von einem Bild oder einem Plan abgezeichnet wurde, ist weniger wert: 0,1 m nehmen Mauern und Gräben dafür, und damit lassen sich die meisten Prüfungen nicht entscheiden.</translation>
    </message>
    <message>
        <source>Of points of layers.</source>
        <translation>Von Punkten aus Layern.</translation>
    </message>
    <message>
        <source>Of ramps, landings and paths.</source>
        <translation>Von Rampen, Podesten und Wegen.</translation>
    </message>
    <message>
        <source>Of that diameter. It may come from a field.</source>
        <translation>Mit diesem Durchmesser. Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>Of the combined one.</source>
        <translation>Des zusammengefassten Durchmessers.</translation>
    </message>
    <message>
        <source>Of the layers only some have a place on the map: {name} is in {crs}. Choose layers that are all placed, or all in one local grid.</source>
        <translation>Von den Layern haben nur einige einen Ort auf der Karte: {name} ist in {crs}. Layer wählen, die alle eingepasst sind oder alle in einem örtlichen Gitter liegen.</translation>
    </message>
    <message>
        <source>Of the rows&apos; own points, and of surfaces that do not say it. It may come from a field.</source>
        <translation>Von den eigenen Punkten der Zeilen, und von Oberflächen, die sie nicht nennen. Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>Of the rows&apos; own points.</source>
        <translation>Von den eigenen Punkten der Zeilen.</translation>
    </message>
    <message>
        <source>Of the smallest {n} none is drawn.</source>
        <translation>Von den {n} kleinsten ist keine gezeichnet.</translation>
    </message>
    <message>
        <source>Of the whole comparison, all its tests together.</source>
        <translation>Des ganzen Vergleichs, alle seine Prüfungen zusammen.</translation>
    </message>
    <message>
        <source>Of widths, heights and thicknesses (a tape in ordinary care errs by some millimetres: common practice).</source>
        <translation>Von Breiten, Höhen und Dicken (ein Bandmaß irrt bei üblicher Sorgfalt um einige Millimeter: übliche Praxis).</translation>
    </message>
    <message>
        <source>Of {mulch} m of mulch nothing would be delivered at a bulking of 0. Give the loose volume by the laid one: 1 where it does not settle.</source>
        <translation>Von {mulch} m Mulch würde bei einer Auflockerung von 0 nichts geliefert. Das lose Volumen durch das eingebaute angeben: 1, wo es sich nicht setzt.</translation>
    </message>
    <message>
        <source>Off, the measured size is kept and the scale only shown as a check.</source>
        <translation>Aus: die gemessene Größe bleibt, und der Maßstab wird nur zur Kontrolle gezeigt.</translation>
    </message>
    <message>
        <source>One edge of the face has heights and the other has none. Give both.</source>
        <translation>Eine Kante der Ansichtsfläche hat Höhen, die andere keine. Beiden welche geben.</translation>
    </message>
    <message>
        <source>One line, arcs too; sections are cut square to it.</source>
        <translation>Eine Linie, auch mit Bögen; Schnitte liegen quer dazu.</translation>
    </message>
    <message>
        <source>One of the two edges is closed and the other is open. Draw both from end to end, or end each with its own first point.</source>
        <translation>Eine der beiden Kanten ist geschlossen, die andere offen. Beide von Ende zu Ende zeichnen, oder jede mit ihrem eigenen ersten Punkt beenden.</translation>
    </message>
    <message>
        <source>One sigma of {sigma} = {by} times what each point is worth on each axis, ±{point}.</source>
        <translation>Eine Standardabweichung von {sigma} = {by}-mal, was jeder Punkt je Achse wert ist, ±{point}.</translation>
    </message>
    <message>
        <source>One-sigma of a corner that was digitised, each axis, metres</source>
        <translation>Standardabweichung einer digitalisierten Ecke, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a corner, each axis and height, metres</source>
        <translation>Standardabweichung einer Ecke, je Achse und Höhe, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a corner, each axis, metres</source>
        <translation>Standardabweichung einer Ecke, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a height on a breakline, metres</source>
        <translation>Standardabweichung einer Höhe auf einer Bruchkante, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a height where a surface does not say it, metres</source>
        <translation>Standardabweichung einer Höhe, wo eine Oberfläche sie nicht nennt, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a height, metres</source>
        <translation>Standardabweichung einer Höhe, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a known height, metres</source>
        <translation>Standardabweichung einer bekannten Höhe, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a level, metres</source>
        <translation>Standardabweichung einer Höhe, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a map point, each axis, metres</source>
        <translation>Standardabweichung eines Kartenpunkts, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a map point, each axis: of the next mark, and of marks that have none of their own.</source>
        <translation>Standardabweichung eines Kartenpunkts, je Achse: des nächsten Festpunkts, und von Festpunkten, die keine eigene haben.</translation>
    </message>
    <message>
        <source>One-sigma of a point in plan, each axis, metres</source>
        <translation>Standardabweichung eines Punkts in der Lage, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a point, each axis and height, metres</source>
        <translation>Standardabweichung eines Punkts, je Achse und Höhe, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a point, each axis, metres</source>
        <translation>Standardabweichung eines Punkts, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a stem&apos;s diameter, metres</source>
        <translation>Standardabweichung eines Stammdurchmessers, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a tree or a corner of works, each axis, metres</source>
        <translation>Standardabweichung eines Baums oder einer Ecke der Arbeiten, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of a vertex, each axis, metres</source>
        <translation>Standardabweichung eines Stützpunkts, je Achse, Meter</translation>
    </message>
    <message>
        <source>One-sigma of how far the picture may lie off as a whole: it moves the site, not its size.</source>
        <translation>Standardabweichung dessen, wie weit das Bild als Ganzes daneben liegen kann: es verschiebt das Gelände, nicht seine Größe.</translation>
    </message>
    <message>
        <source>One-sigma of one surface&apos;s heights as a whole against the other&apos;s, metres</source>
        <translation>Standardabweichung der Höhen einer Oberfläche als Ganzes gegen die der anderen, Meter</translation>
    </message>
    <message>
        <source>One-sigma of taped sizes, metres</source>
        <translation>Standardabweichung von Größen mit dem Bandmaß, Meter</translation>
    </message>
    <message>
        <source>One-sigma of the ground between the points, metres</source>
        <translation>Standardabweichung des Bodens zwischen den Punkten, Meter</translation>
    </message>
    <message>
        <source>One-sigma of the shift that all map points share, metres</source>
        <translation>Standardabweichung der Verschiebung, die alle Kartenpunkte gemeinsam haben, Meter</translation>
    </message>
    <message>
        <source>One-sigma of the strip&apos;s depth, metres</source>
        <translation>Standardabweichung der Tiefe des Oberbodenabtrags, Meter</translation>
    </message>
    <message>
        <source>One-sigma of the surface&apos;s height as a whole, metres</source>
        <translation>Standardabweichung der Höhe der Oberfläche als Ganzes, Meter</translation>
    </message>
    <message>
        <source>One-sigma of what all heights share, metres</source>
        <translation>Standardabweichung dessen, was alle Höhen gemeinsam haben, Meter</translation>
    </message>
    <message>
        <source>One-sigma of where the edge is taken to lie, metres</source>
        <translation>Standardabweichung der angenommenen Lage der Kante, Meter</translation>
    </message>
    <message>
        <source>One-sigma, m</source>
        <translation>Standardabweichung, m</translation>
    </message>
    <message>
        <source>Only inside the survey&apos;s areas</source>
        <translation>Nur innerhalb der Flächen des Aufmaßes</translation>
    </message>
    <message>
        <source>Only limits whose name begins with</source>
        <translation>Nur Grenzwerte, deren Name beginnt mit</translation>
    </message>
    <message>
        <source>Only so do the points lie where {crs} is used.</source>
        <translation>Nur so liegen die Punkte dort, wo {crs} verwendet wird.</translation>
    </message>
    <message>
        <source>Only {tested} points stand inside the surface and on no line; {fewest} are needed to say how far the ground lies off the triangles between the points. That part is in no sigma.</source>
        <translation>Nur {tested} Punkte stehen innerhalb der Oberfläche und auf keiner Linie; {fewest} sind nötig, um zu sagen, wie weit der Boden zwischen den Punkten neben den Dreiecken liegt. Dieser Teil steckt in keiner Standardabweichung.</translation>
    </message>
    <message>
        <source>Open a survey</source>
        <translation>Aufmaß öffnen</translation>
    </message>
    <message>
        <source>Other limits are chosen now than these checks were made with.</source>
        <translation>Jetzt sind andere Grenzwerte gewählt als die, mit denen diese Prüfungen gemacht wurden.</translation>
    </message>
    <message>
        <source>Out of date.</source>
        <translation>Veraltet.</translation>
    </message>
    <message>
        <source>Outline {n}:</source>
        <translation>Umriss {n}:</translation>
    </message>
    <message>
        <source>Outlines</source>
        <translation>Umrisse</translation>
    </message>
    <message>
        <source>Outlines and lines of any layer as the fewest straights and tangent arcs of which no vertex lies off by more than the tolerance. Corners and sparse vertices stay where they are, and so do true curves. Nothing is invented: what no straight or arc fits, within what its vertices are worth, stays as recorded.

Every row comes back, with true curves where any were found, and how many straights and arcs it has, the RMS and the largest distance, and why it was refused if it was. Sides has a row for each straight and arc: length, radius, centre, sweep, chord, rise over the chord, RMS, and their one-sigma, all true to the ground. The schedule has a row for each radius: alike are radii that differ by no more than their joint 95 %, or that round to the same.</source>
        <translation>Umrisse und Linien eines beliebigen Layers als die wenigsten Geraden und tangentialen Bögen, von denen kein Stützpunkt weiter als die Toleranz abliegt. Ecken und einzelne Stützpunkte bleiben, wo sie sind, und wahre Bögen auch. Nichts wird erfunden: was keine Gerade und kein Bogen trifft, so genau die Stützpunkte sind, bleibt wie aufgenommen.

Jede Zeile kommt zurück, mit wahren Bögen, wo welche gefunden wurden, und wie viele Geraden und Bögen sie hat, dem RMS und dem größten Abstand, und warum sie abgewiesen wurde, wenn ja. „Seiten“ hat eine Zeile für jede Gerade und jeden Bogen: Länge, Radius, Mittelpunkt, Öffnungswinkel, Sehne, Stichhöhe, RMS und deren Standardabweichung, alles wahr am Boden. Die Liste der Radien hat eine Zeile für jeden Radius: gleich sind Radien, die sich um nicht mehr als ihre gemeinsamen 95 % unterscheiden oder auf dasselbe runden.</translation>
    </message>
    <message>
        <source>Outlines of areas cross each other, and how much ground they both count was not looked at: the library {library} is not installed.</source>
        <translation>Umrisse von Flächen kreuzen sich, und wie viel Boden beide zählen, wurde nicht ermittelt: die Bibliothek {library} ist nicht installiert.</translation>
    </message>
    <message>
        <source>Outlines of ponds need the library {library}, which is not there. Install it.</source>
        <translation>Umrisse von Senken brauchen die Bibliothek {library}, die nicht da ist. Sie installieren.</translation>
    </message>
    <message>
        <source>Outlines of slabs</source>
        <translation>Umrisse von Platten</translation>
    </message>
    <message>
        <source>Outlines or lines</source>
        <translation>Umrisse oder Linien</translation>
    </message>
    <message>
        <source>Over a surface the crossfall is taken across it, half to either side; 0: that of the triangles under the line. It may come from a field; where it is 0, a field width_m counts.</source>
        <translation>Über einer Oberfläche wird das Quergefälle über diese Breite genommen, je zur Hälfte nach beiden Seiten; 0: das der Dreiecke unter der Linie. Darf aus einem Feld kommen; wo sie 0 ist, zählt ein Feld width_m.</translation>
    </message>
    <message>
        <source>Overlaps with works</source>
        <translation>Überschneidungen mit Arbeiten</translation>
    </message>
    <message>
        <source>PL-02: {message} {remedy}</source>
        <translation>PL-02: {message} {remedy}</translation>
    </message>
    <message>
        <source>PL-04: from {source} to {target} only a rough way is known here (it can be 100 m off). Give the control in {target}, or install the grid of: {missing}.</source>
        <translation>PL-04: von {source} nach {target} ist hier nur ein grober Weg bekannt (er kann 100 m daneben liegen). Die Passpunkte in {target} angeben oder das Gitter installieren von: {missing}.</translation>
    </message>
    <message>
        <source>PL-04: from {source} to {target} only a rough way is known here (it can be 100 m off). Give the control in {target}.</source>
        <translation>PL-04: von {source} nach {target} ist hier nur ein grober Weg bekannt (er kann 100 m daneben liegen). Die Passpunkte in {target} angeben.</translation>
    </message>
    <message>
        <source>PL-04: the CRS {crs} of {file} {what}. Choose a projected CRS for the map; sizes are from the survey plane.</source>
        <translation>PL-04: das KBS {crs} von {file} {what}. Ein projiziertes KBS für die Karte wählen; Maße kommen aus der Aufmaßebene.</translation>
    </message>
    <message>
        <source>PL-04: the control points cannot be brought from {source} to {target}: they lie outside what these can hold. Check the CRS and the column order.</source>
        <translation>PL-04: die Passpunkte lassen sich nicht von {source} nach {target} bringen: sie liegen außerhalb dessen, was diese fassen können. KBS und Spaltenfolge prüfen.</translation>
    </message>
    <message>
        <source>PL-04: the site lies at {lon:.3f}, {lat:.3f} (longitude, latitude), out of the area of {crs} ({area}). Check the CRS, the unit and the column order of the control.</source>
        <translation>PL-04: das Gelände liegt bei {lon:.3f}, {lat:.3f} (Länge, Breite), außerhalb des Gebiets von {crs} ({area}). KBS, Einheit und Spaltenfolge der Passpunkte prüfen.</translation>
    </message>
    <message>
        <source>PL-04: there is no way from {source} to {target}. Choose another CRS for the control or the map.</source>
        <translation>PL-04: es gibt keinen Weg von {source} nach {target}. Ein anderes KBS für die Passpunkte oder die Karte wählen.</translation>
    </message>
    <message>
        <source>PL-04: {file} does not say in which CRS its points are. Add a line such as `# crs: EPSG:25831`.</source>
        <translation>PL-04: {file} sagt nicht, in welchem KBS die Punkte sind. Eine Zeile wie `# crs: EPSG:25831` hinzufügen.</translation>
    </message>
    <message>
        <source>Pair a third ground point as a check, well off the middle of the others, or look at the preview over the picture and confirm it.</source>
        <translation>Einen dritten Bodenpunkt als Kontrolle zuordnen, weit ab von der Mitte der anderen, oder die Vorschau über dem Bild ansehen und bestätigen.</translation>
    </message>
    <message>
        <source>Pair station {station} of walk {walk} with its map point (one sigma {sd:g} m): {gains}.</source>
        <translation>Standpunkt {station} der Begehung {walk} mit seinem Kartenpunkt paaren (Standardabweichung {sd:g} m): {gains}.</translation>
    </message>
    <message>
        <source>Paired, yes or no</source>
        <translation>Gepaart, ja oder nein</translation>
    </message>
    <message>
        <source>Part field</source>
        <translation>Feld des Teils</translation>
    </message>
    <message>
        <source>Part of the cut that is fit for fill</source>
        <translation>Teil des Abtrags, der sich als Auftrag eignet</translation>
    </message>
    <message>
        <source>Paths</source>
        <translation>Wege</translation>
    </message>
    <message>
        <source>Pattern</source>
        <translation>Verband</translation>
    </message>
    <message>
        <source>Percent</source>
        <translation>Prozent</translation>
    </message>
    <message>
        <source>Perimeter</source>
        <translation>Umfang</translation>
    </message>
    <message>
        <source>Phone&apos;s figures: largest uncertainty that may be priced, percent</source>
        <translation>Maße vom Telefon: größte Unsicherheit, die bepreist werden darf, Prozent</translation>
    </message>
    <message>
        <source>Picked to</source>
        <translation>Abgegriffen auf</translation>
    </message>
    <message>
        <source>Picture</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>Picture the control was picked from</source>
        <translation>Bild, aus dem die Passpunkte abgegriffen wurden</translation>
    </message>
    <message>
        <source>Pipe wall and bedding.</source>
        <translation>Rohrwand und Bettung.</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Place on the map</source>
        <translation>Auf die Karte setzen</translation>
    </message>
    <message>
        <source>Place survey</source>
        <translation>Aufmaß einpassen</translation>
    </message>
    <message>
        <source>Place the adjusted walks on the map by the marks whose map points are known.

Two pairs give position and turn; the measured size is kept and the scale shown as a check. residual_m is how far a mark lies from its map point; a check point tests the fit without taking part in it. rotation_deg turns the survey plane to the grid, anticlockwise; grid_to_ground is ground length by grid length; common_m_sigma the shift that all picks of one picture share. Two marks close together serve badly far away: look at the error ellipses.</source>
        <translation>Die ausgeglichenen Begehungen an den Festpunkten, deren Kartenpunkte bekannt sind, in die Karte einpassen.

Zwei Paare geben Lage und Drehung; die gemessene Größe bleibt, der Maßstab wird zur Kontrolle gezeigt. residual_m ist, wie weit ein Festpunkt von seinem Kartenpunkt liegt; ein Kontrollpunkt prüft die Einpassung, ohne an ihr teilzunehmen. rotation_deg dreht die Aufmaßebene ins Gitter, gegen den Uhrzeigersinn; grid_to_ground ist Länge am Boden durch Länge im Gitter; common_m_sigma die Verschiebung, die alle aus einem Bild abgegriffenen Punkte gemeinsam haben. Zwei Festpunkte nah beieinander dienen schlecht für weit Entferntes: auf die Fehlerellipsen achten.</translation>
    </message>
    <message>
        <source>Placement</source>
        <translation>Einpassung</translation>
    </message>
    <message>
        <source>Placement: nothing, for a size is the same wherever it is placed.</source>
        <translation>Einpassung: nichts, denn eine Größe ist dieselbe, wohin sie auch eingepasst wird.</translation>
    </message>
    <message>
        <source>Placing</source>
        <translation>Es wird eingepasst</translation>
    </message>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Plan a walk...</source>
        <translation>Begehung planen...</translation>
    </message>
    <message>
        <source>Plan walk</source>
        <translation>Begehung planen</translation>
    </message>
    <message>
        <source>Planned mark</source>
        <translation>Geplanter Festpunkt</translation>
    </message>
    <message>
        <source>Planned marks</source>
        <translation>Geplante Festpunkte</translation>
    </message>
    <message>
        <source>Planned walk</source>
        <translation>Geplante Begehung</translation>
    </message>
    <message>
        <source>Planned walks</source>
        <translation>Geplante Begehungen</translation>
    </message>
    <message>
        <source>Planned walks (lines)</source>
        <translation>Geplante Begehungen (Linien)</translation>
    </message>
    <message>
        <source>Plants, turf, seed and mulch of the beds of any polygon layer, and plants of the rows of any line layer, true to the ground, with their uncertainty.

A bed&apos;s edge is set back first; each plant has the spacing squared in square rows, and 0.866 of it in staggered ones, which takes 15.5 % more plants. A row has a plant at its start and one at every spacing; a closed one as many as have room. Turf goes in strips along the longest side, over all of the bed; rolls are counted strip by strip. Seed goes by weight and mulch by depth over the bed that is set back.

Every row comes back with its own columns and these figures. Each factor is taken once, and method names it. Have buried services located before breaking ground.</source>
        <translation>Pflanzen, Rollrasen, Saatgut und Mulch der Beete eines beliebigen Polygonlayers und Pflanzen der Reihen eines beliebigen Linienlayers, wahr am Boden, mit ihrer Unsicherheit.

Der Rand eines Beets wird zuerst zurückgesetzt; jede Pflanze hat im Quadratverband den Abstand im Quadrat, im versetzten Verband das 0,866-Fache davon, was 15,5 % mehr Pflanzen braucht. Eine Reihe hat eine Pflanze an ihrem Anfang und eine in jedem Abstand; eine geschlossene so viele, wie Platz haben. Rollrasen liegt in Bahnen entlang der längsten Seite, über dem ganzen Beet; Rollen werden Bahn für Bahn gezählt. Saatgut geht nach Gewicht und Mulch nach Dicke über das zurückgesetzte Beet.

Jede Zeile kommt mit ihren eigenen Spalten und diesen Maßen zurück. Jeder Faktor wird einmal genommen, und method nennt ihn. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>Point at the map, or open a table and choose Show the working for a row: the formula of its figure stands here, and the stations it rests on.</source>
        <translation>Auf die Karte zeigen oder eine Tabelle öffnen und für eine Zeile „Den Rechenweg zeigen“ wählen: hier stehen die Formel ihres Maßes und die Standpunkte, auf denen es beruht.</translation>
    </message>
    <message>
        <source>Point {number} has no place: ({x}, {y}).</source>
        <translation>Punkt {number} hat keinen Ort: ({x}, {y}).</translation>
    </message>
    <message>
        <source>Point {point} has no height, and the others have. Give it one (z), or choose a surface.</source>
        <translation>Punkt {point} hat keine Höhe, die anderen haben eine. Ihm eine geben (z) oder eine Oberfläche wählen.</translation>
    </message>
    <message>
        <source>Points lie too near each other for a triangulation. Merge points within a larger distance.</source>
        <translation>Punkte liegen für eine Dreiecksvermaschung zu nah beieinander. Punkte in einem größeren Abstand zusammenlegen.</translation>
    </message>
    <message>
        <source>Points lie too near to one line for a triangulation. Merge points within a larger distance.</source>
        <translation>Punkte liegen für eine Dreiecksvermaschung zu nah an einer Geraden. Punkte in einem größeren Abstand zusammenlegen.</translation>
    </message>
    <message>
        <source>Points with heights (z), or with a field that holds them.</source>
        <translation>Punkte mit Höhen (z) oder mit einem Feld, das sie enthält.</translation>
    </message>
    <message>
        <source>Ponds</source>
        <translation>Senken</translation>
    </message>
    <message>
        <source>Ponds found</source>
        <translation>Gefundene Senken</translation>
    </message>
    <message>
        <source>Ponds found: {count}, {volume:.3f} m3 in all.</source>
        <translation>Gefundene Senken: {count}, zusammen {volume:.3f} m3.</translation>
    </message>
    <message>
        <source>Press Check.</source>
        <translation>„Prüfen“ drücken.</translation>
    </message>
    <message>
        <source>Prices or rules, which a survey is not made from.</source>
        <translation>Preise oder Regeln, aus denen kein Aufmaß entsteht.</translation>
    </message>
    <message>
        <source>Profiles, edges or outlines</source>
        <translation>Profile, Kanten oder Umrisse</translation>
    </message>
    <message>
        <source>Project</source>
        <translation>Projekt</translation>
    </message>
    <message>
        <source>Protect trees</source>
        <translation>Bäume schützen</translation>
    </message>
    <message>
        <source>Protection circles</source>
        <translation>Schutzkreise</translation>
    </message>
    <message>
        <source>Purity times germination; the weight goes up accordingly.</source>
        <translation>Reinheit mal Keimfähigkeit; das Gewicht steigt entsprechend.</translation>
    </message>
    <message>
        <source>Put a line with the names above it, or answer with the order of the columns; until then its points are not read.</source>
        <translation>Eine Zeile mit den Namen darüber setzen oder mit der Reihenfolge der Spalten antworten; bis dahin werden ihre Punkte nicht gelesen.</translation>
    </message>
    <message>
        <source>Put a mark there, or pair the one that is there. Then forecast again; Undo takes it back.</source>
        <translation>Dort einen Festpunkt setzen oder den vorhandenen paaren. Dann neu vorhersagen; „Rückgängig“ nimmt es zurück.</translation>
    </message>
    <message>
        <source>Put it above the header, or keep the logs in files of their own; the rest of the file was read.</source>
        <translation>Über die Kopfzeile setzen oder die Protokolle in eigenen Dateien führen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>QGIS for macOS brings it: install QGIS again from its own installer and start it again.</source>
        <translation>QGIS für macOS bringt sie mit: QGIS aus seinem eigenen Installer neu installieren und neu starten.</translation>
    </message>
    <message>
        <source>R&amp;esults</source>
        <translation>&amp;Ergebnisse</translation>
    </message>
    <message>
        <source>RS-01: Cannot tell.</source>
        <translation>RS-01: Lässt sich nicht entscheiden.</translation>
    </message>
    <message>
        <source>RS-01: Cannot tell: the 95 % interval lies on both sides. Measure it better.</source>
        <translation>RS-01: Lässt sich nicht entscheiden: der 95-%-Bereich liegt auf beiden Seiten. Besser messen.</translation>
    </message>
    <message>
        <source>RS-01: It is outside the limit beyond what it is worth. Change it, or choose the limit that holds.</source>
        <translation>RS-01: Es liegt über das hinaus, was es wert ist, außerhalb des Grenzwerts. Ändern oder den Grenzwert wählen, der gilt.</translation>
    </message>
    <message>
        <source>RW-01: The retained height may pass the limit. Have it designed; enter the name.</source>
        <translation>RW-01: Die Stützhöhe kann den Grenzwert überschreiten. Planen lassen; den Namen eintragen.</translation>
    </message>
    <message>
        <source>RW-01: The retained height reaches the designer&apos;s limit of {limit:g} m with a chance of {chance:.0f} %. Have it designed; enter the name.</source>
        <translation>RW-01: Die Stützhöhe erreicht den Grenzwert für Planende von {limit:g} m mit einer Wahrscheinlichkeit von {chance:.0f} %. Planen lassen; den Namen eintragen.</translation>
    </message>
    <message>
        <source>Radii are to be rounded to {rounding} m. Give a length above 0.</source>
        <translation>Radien sollen auf {rounding} m gerundet werden. Eine Länge über 0 angeben.</translation>
    </message>
    <message>
        <source>Radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>Radius = length of the arc by what it turns through, in radians.</source>
        <translation>Radius = Länge des Bogens durch den Winkel, um den er dreht, im Bogenmaß.</translation>
    </message>
    <message>
        <source>Radius below which a form is curved, metres</source>
        <translation>Radius, unter dem eine Schalung gebogen ist, Meter</translation>
    </message>
    <message>
        <source>Radius, in stem diameters</source>
        <translation>Radius, in Stammdurchmessern</translation>
    </message>
    <message>
        <source>Ramps</source>
        <translation>Rampen</translation>
    </message>
    <message>
        <source>Ramps and paths that were walked as one line take their crossfall from it. Areas are held to the fall of their own heights.</source>
        <translation>Rampen und Wege, die als eine Linie begangen wurden, nehmen ihr Quergefälle daraus. Flächen werden am Gefälle ihrer eigenen Höhen geprüft.</translation>
    </message>
    <message>
        <source>Ramps, steps, paths, falls and walls held against an editable table of limits, a row a check: what was measured and its one-sigma, what is allowed, where that comes from, the outcome, and the chance that the true figure is allowed.

A check passes or fails only where the 95 % interval of the figure lies wholly on one side of the limit; else the outcome is cannot tell, and it stays open. Of several flights, risers or goings the row has the one that is likeliest to break the limit. Ramps are walked along the middle, or by parts left and right; over a surface those of one line have a crossfall too; steps with a station on each nosing and at the foot of each riser; walls by parts foot and top. A survey&apos;s areas and lengths are told apart by their parts and risers.

The limits shipped are examples with their source, some from memory: they are nobody&apos;s permission. Ramps, steps, walls and falls follow local codes and a licensed practitioner&apos;s judgement. Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation>Rampen, Treppen, Wege, Gefälle und Mauern gegen eine bearbeitbare Tabelle von Grenzwerten, je Prüfung eine Zeile: was gemessen wurde und seine Standardabweichung, was erlaubt ist, woher das kommt, das Ergebnis und die Wahrscheinlichkeit, dass das wahre Maß erlaubt ist.

Eine Prüfung ist nur bestanden oder nicht bestanden, wo der 95-%-Bereich des Maßes ganz auf einer Seite des Grenzwerts liegt; sonst ist das Ergebnis cannot tell (nicht zu entscheiden), und sie bleibt offen. Von mehreren Läufen, Setzstufen oder Auftritten hat die Zeile den, der den Grenzwert am wahrscheinlichsten verletzt. Rampen werden entlang der Mitte begangen oder nach den Teilen left und right; über einer Oberfläche haben die aus einer Linie auch ein Quergefälle; Treppen mit einem Standpunkt auf jeder Trittkante und am Fuß jeder Setzstufe; Mauern nach den Teilen foot und top. Flächen und Längen eines Aufmaßes werden an ihren Teilen und Setzstufen unterschieden.

Die mitgelieferten Grenzwerte sind Beispiele mit ihrer Quelle, einige aus dem Gedächtnis: sie sind keine Genehmigung. Rampen, Treppen, Mauern und Gefälle folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute. Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>Reach of that, metres</source>
        <translation>Reichweite davon, Meter</translation>
    </message>
    <message>
        <source>Read walk logs, point lists, GPX, NMEA 0183 and LandXML, and check them: one point for each station, the surfaces, and the findings.

x_m, y_m and z_m are metres in each walk&apos;s own frame (the CRS&apos;s own units where the file is in one), the pole taken off the height; walks are brought together only by Adjust walks. A finding names file, line and station, says what stood there and what to do: a stop keeps figures out, an ask wants an answer, a note is told.</source>
        <translation>Begehungsprotokolle, Punktlisten, GPX, NMEA 0183 und LandXML lesen und prüfen: ein Punkt für jeden Standpunkt, die Oberflächen und die Befunde.

x_m, y_m und z_m sind Meter im eigenen Rahmen jeder Begehung (die Einheiten des KBS, wo die Datei in einem ist), die Stabhöhe abgezogen; zusammengeführt werden Begehungen erst von „Begehungen ausgleichen“. Ein Befund nennt Datei, Zeile und Standpunkt, sagt, was dort stand und was zu tun ist: eine Sperre hält Maße zurück, eine Frage will eine Antwort, ein Hinweis wird mitgeteilt.</translation>
    </message>
    <message>
        <source>Read walks</source>
        <translation>Begehungen einlesen</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Es wird gelesen</translation>
    </message>
    <message>
        <source>Reading levels and lines</source>
        <translation>Höhen und Linien werden gelesen</translation>
    </message>
    <message>
        <source>Reading surfaces</source>
        <translation>Oberflächen werden gelesen</translation>
    </message>
    <message>
        <source>Reading the logs</source>
        <translation>Die Protokolle werden gelesen</translation>
    </message>
    <message>
        <source>Reading the surface</source>
        <translation>Die Oberfläche wird gelesen</translation>
    </message>
    <message>
        <source>Reading the surfaces of the project</source>
        <translation>Die Oberflächen des Projekts werden gelesen</translation>
    </message>
    <message>
        <source>Record the log anew, or confirm with: left out. The other sentences were read.</source>
        <translation>Das Protokoll neu aufnehmen oder bestätigen mit: left out. Die übrigen Sätze wurden gelesen.</translation>
    </message>
    <message>
        <source>Rectangular: upright sides</source>
        <translation>Rechteckig: senkrechte Seiten</translation>
    </message>
    <message>
        <source>Redraw it.</source>
        <translation>Neu zeichnen.</translation>
    </message>
    <message>
        <source>Redraw the arc or its neighbours so that they do not meet again.</source>
        <translation>Den Bogen oder seine Nachbarn neu zeichnen, sodass sie nicht wieder zusammentreffen.</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Verzeichnis</translation>
    </message>
    <message>
        <source>Renumber it, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from here on are then a walk of their own.</source>
        <translation>Neu nummerieren oder bestätigen mit: as recorded. Hat das Aufnahmegerät hier neu begonnen, mit split antworten: die Zeilen von hier an sind dann eine eigene Begehung.</translation>
    </message>
    <message>
        <source>Residual</source>
        <translation>Restklaffe</translation>
    </message>
    <message>
        <source>Residuals against their limits</source>
        <translation>Restklaffen gegen ihre Grenzwerte</translation>
    </message>
    <message>
        <source>Residuals and 95 % ellipses, drawn {times:g} times their size</source>
        <translation>Restklaffen und 95-%-Ellipsen, {times:g}-fach vergrößert gezeichnet</translation>
    </message>
    <message>
        <source>Residuals at the marks</source>
        <translation>Restklaffen an den Festpunkten</translation>
    </message>
    <message>
        <source>Right click or Enter ends, Backspace takes it back, Escape gives the line up.</source>
        <translation>Rechtsklick oder Eingabe beendet, Rücktaste nimmt zurück, Escape verwirft die Linie.</translation>
    </message>
    <message>
        <source>Right of a line, inside an area</source>
        <translation>Rechts einer Linie, innerhalb einer Fläche</translation>
    </message>
    <message>
        <source>Right of its line, a top edge</source>
        <translation>Rechts seiner Linie, einer Oberkante</translation>
    </message>
    <message>
        <source>Right of its line, the front</source>
        <translation>Rechts ihrer Linie, der Vorderseite</translation>
    </message>
    <message>
        <source>Rise</source>
        <translation>Höhenunterschied</translation>
    </message>
    <message>
        <source>Rise = height of the end less height of the start.</source>
        <translation>Höhenunterschied = Höhe des Endes weniger Höhe des Anfangs.</translation>
    </message>
    <message>
        <source>Rise by run.</source>
        <translation>Höhe durch Länge.</translation>
    </message>
    <message>
        <source>Rise by run. Level lies within its 95 %: which way it falls is not sure.</source>
        <translation>Höhe durch Länge. Waagerecht liegt innerhalb der 95 %: wohin es fällt, ist nicht sicher.</translation>
    </message>
    <message>
        <source>Rise by run; in brackets the 95 %.</source>
        <translation>Höhe durch Länge; in Klammern die 95 %.</translation>
    </message>
    <message>
        <source>Rise, run and gradient between two places that are clicked</source>
        <translation>Höhenunterschied, Länge und Neigung zwischen zwei angeklickten Stellen</translation>
    </message>
    <message>
        <source>Roofs and tree tops lean: pick at the foot.</source>
        <translation>Dächer und Baumkronen neigen sich: am Fuß abgreifen.</translation>
    </message>
    <message>
        <source>Round the radii of the schedule to multiples of, metres</source>
        <translation>Radien der Liste runden auf Vielfache von, Meter</translation>
    </message>
    <message>
        <source>Round-bottomed: a part of a circle</source>
        <translation>Runde Sohle: ein Teil eines Kreises</translation>
    </message>
    <message>
        <source>Row {row} is to be a corner, but the line has rows 0 to {last}.</source>
        <translation>Zeile {row} soll eine Ecke sein, aber die Linie hat die Zeilen 0 bis {last}.</translation>
    </message>
    <message>
        <source>Row {row} names no walk in the column {column}. Give it the name of the walk it belongs to.</source>
        <translation>Zeile {row} nennt in der Spalte {column} keine Begehung. Ihr den Namen der Begehung geben, zu der sie gehört.</translation>
    </message>
    <message>
        <source>Row {row} of the marks is no single point. Give each mark one.</source>
        <translation>Zeile {row} der Festpunkte ist kein einzelner Punkt. Jedem Festpunkt einen geben.</translation>
    </message>
    <message>
        <source>Row {row} of the marks lies outside what the CRS of the lines can hold. Check both layers&apos; CRS.</source>
        <translation>Zeile {row} der Festpunkte liegt außerhalb dessen, was das KBS der Linien fassen kann. Das KBS beider Layer prüfen.</translation>
    </message>
    <message>
        <source>Row {row} of the walked line has no place ({x}, {y}). Leave such rows out.</source>
        <translation>Zeile {row} der begangenen Linie hat keinen Ort ({x}, {y}). Solche Zeilen weglassen.</translation>
    </message>
    <message>
        <source>Row {row}: There is no geometry. Draw it, or delete the row.</source>
        <translation>Zeile {row}: Es ist keine Geometrie da. Zeichnen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>Row {row}: {count} point makes no line. Add points, or delete the row.</source>
        <translation>Zeile {row}: {count} Punkt ergibt keine Linie. Punkte hinzufügen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>Rows measured</source>
        <translation>Gemessene Zeilen</translation>
    </message>
    <message>
        <source>Rows measured: {measured}.</source>
        <translation>Gemessene Zeilen: {measured}.</translation>
    </message>
    <message>
        <source>Rows measured: {measured}; cut {cut:.3f} m3 and fill {fill:.3f} m3 in all.</source>
        <translation>Gemessene Zeilen: {measured}; zusammen Abtrag {cut:.3f} m3 und Auftrag {fill:.3f} m3.</translation>
    </message>
    <message>
        <source>Rows measured: {measured}; {name} {total:.3f} in all.</source>
        <translation>Gemessene Zeilen: {measured}; {name} zusammen {total:.3f}.</translation>
    </message>
    <message>
        <source>Rows refused</source>
        <translation>Abgewiesene Zeilen</translation>
    </message>
    <message>
        <source>Rows that cannot be read so: {count}.</source>
        <translation>Zeilen, die so nicht lesbar sind: {count}.</translation>
    </message>
    <message>
        <source>Rows to fit are x and y, (n, 2); here they are {shape}.</source>
        <translation>Einzupassende Zeilen sind x und y, (n, 2); hier sind sie {shape}.</translation>
    </message>
    <message>
        <source>Rows without figures: {refused}. The column finding says why, and what to do.</source>
        <translation>Zeilen ohne Maße: {refused}. Die Spalte finding sagt, warum und was zu tun ist.</translation>
    </message>
    <message>
        <source>Run</source>
        <translation>Länge in der Lage</translation>
    </message>
    <message>
        <source>Run over which the steepest gradient is looked for, metres</source>
        <translation>Länge, über die die steilste Neigung gesucht wird, Meter</translation>
    </message>
    <message>
        <source>Run {n}:</source>
        <translation>Zug {n}:</translation>
    </message>
    <message>
        <source>Runs</source>
        <translation>Läufe</translation>
    </message>
    <message>
        <source>S&amp;trip first</source>
        <translation>O&amp;berboden zuerst</translation>
    </message>
    <message>
        <source>S&amp;urface under paths</source>
        <translation>&amp;Oberfläche unter Wegen</translation>
    </message>
    <message>
        <source>Save &amp;picture...</source>
        <translation>Bil&amp;d speichern...</translation>
    </message>
    <message>
        <source>Save it as UTF-8 if names look wrong.</source>
        <translation>Als UTF-8 speichern, wenn Namen falsch aussehen.</translation>
    </message>
    <message>
        <source>Save picture</source>
        <translation>Bild speichern</translation>
    </message>
    <message>
        <source>Save the sheet with values in place of formulas; the rest of the file was read.</source>
        <translation>Das Blatt mit Werten statt Formeln speichern; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Say which column is which.</source>
        <translation>Sagen, welche Spalte welche ist.</translation>
    </message>
    <message>
        <source>Schedule of radii</source>
        <translation>Liste der Radien</translation>
    </message>
    <message>
        <source>Seconds held still at a station</source>
        <translation>Sekunden Stillhalten je Standpunkt</translation>
    </message>
    <message>
        <source>Section</source>
        <translation>Schnitt</translation>
    </message>
    <message>
        <source>Section of a drawn line</source>
        <translation>Schnitt einer gezeichneten Linie</translation>
    </message>
    <message>
        <source>Sections</source>
        <translation>Schnitte</translation>
    </message>
    <message>
        <source>Sections of different lines cannot be laid over each other. Cut all along one line.</source>
        <translation>Schnitte verschiedener Linien lassen sich nicht übereinanderlegen. Alle entlang einer Linie schneiden.</translation>
    </message>
    <message>
        <source>Sections of one or more surfaces along any lines, or square to a baseline at an interval, with a break at every edge of a triangle: nothing is sampled.

The chainage table has a row for each break: chainage_m along the section, level, rise and gradient of the first surface, which is the ground, and of every other its level and its depth below the ground (cut is positive, fill negative). Where the ground crosses another surface, and where the line crosses a feature, there is a row too. Sections has each as a line with heights and its figures from end to end: rise, run, lengths, the gradient as ratio, percent, degrees, inches in a foot and 1 in n, and the areas of cut and of fill, never netted. End areas has the volumes between the sections of a baseline by the average end area (with the pyramid rule where an end is zero), by the prismoid and exactly over the triangles. Every _sigma is one standard deviation.

Not a boundary or legal survey. Have buried services located before breaking ground. Gradients of ramps and steps follow local codes and a licensed practitioner&apos;s judgement.</source>
        <translation>Schnitte einer oder mehrerer Oberflächen entlang beliebiger Linien, oder quer zu einer Achse in einem Abstand, mit einem Knick an jeder Kante eines Dreiecks: nichts wird in Schritten abgetastet.

Die Stationierungstabelle hat je Knick eine Zeile: chainage_m entlang des Schnitts, Höhe, Höhenunterschied und Neigung der ersten Oberfläche, die der Boden ist, und von jeder anderen ihre Höhe und ihre Tiefe unter dem Boden (Abtrag ist positiv, Auftrag negativ). Wo der Boden eine andere Oberfläche kreuzt, und wo die Linie ein Objekt kreuzt, ist auch eine Zeile. „Schnitte“ hat jeden Schnitt als Linie mit Höhen und seinen Maßen von Ende zu Ende: Höhenunterschied, Länge in der Lage, Längen, die Neigung als Verhältnis, Prozent, Grad, Zoll je Fuß und 1 : n, und die Flächen von Abtrag und Auftrag, nie gegeneinander aufgerechnet. „Querschnittsflächen“ hat die Volumen zwischen den Schnitten einer Achse aus dem Mittel der Querschnittsflächen (mit der Pyramidenregel, wo eine null ist), nach der Prismatoidformel und exakt über die Dreiecke. Jedes _sigma ist eine Standardabweichung.

Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen. Neigungen von Rampen und Treppen folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute.</translation>
    </message>
    <message>
        <source>See which of the two is right and leave the other out, or correct it.</source>
        <translation>Nachsehen, welches der beiden stimmt, und das andere weglassen oder berichtigen.</translation>
    </message>
    <message>
        <source>See which of the two is right and leave the other out.</source>
        <translation>Nachsehen, welches der beiden stimmt, und das andere weglassen.</translation>
    </message>
    <message>
        <source>Seed that is alive, percent</source>
        <translation>Keimfähiges Saatgut, Prozent</translation>
    </message>
    <message>
        <source>Seed, grams per square metre</source>
        <translation>Saatgut, Gramm je Quadratmeter</translation>
    </message>
    <message>
        <source>Seen square to its own plane the outline cannot be measured (it crosses itself, or a hole lies astray). Draw it again there.</source>
        <translation>Rechtwinklig zu seiner eigenen Ebene gesehen ist der Umriss nicht messbar (er kreuzt sich selbst, oder eine Aussparung liegt falsch). Dort neu zeichnen.</translation>
    </message>
    <message>
        <source>Selected areas &amp;only</source>
        <translation>Nur ge&amp;wählte Flächen</translation>
    </message>
    <message>
        <source>Set marks</source>
        <translation>Festpunkte setzen</translation>
    </message>
    <message>
        <source>Set the tape&apos;s unit to {true}.</source>
        <translation>Die Einheit des Bandmaßes auf {true} setzen.</translation>
    </message>
    <message>
        <source>Set the walk&apos;s unit to {true}.</source>
        <translation>Die Einheit der Begehung auf {true} setzen.</translation>
    </message>
    <message>
        <source>Set this mark</source>
        <translation>Diesen Festpunkt setzen</translation>
    </message>
    <message>
        <source>Set-back from the edge, metres</source>
        <translation>Rücksprung vom Rand, Meter</translation>
    </message>
    <message>
        <source>Sets the scale of the survey plane: 64 m of height change a length by 0.001 %.</source>
        <translation>Bestimmt den Maßstab der Aufmaßebene: 64 m Höhe ändern eine Länge um 0,001 %.</translation>
    </message>
    <message>
        <source>Several pictures know where they lie: tick the one that the control was picked from.</source>
        <translation>Mehrere Bilder wissen, wo sie liegen: das ankreuzen, aus dem die Passpunkte abgegriffen wurden.</translation>
    </message>
    <message>
        <source>Shallower ponds are not told; water runs on through them.</source>
        <translation>Flachere Senken werden nicht gemeldet; Wasser läuft durch sie weiter.</translation>
    </message>
    <message>
        <source>Shallowest pond listed, metres</source>
        <translation>Flachste gemeldete Senke, Meter</translation>
    </message>
    <message>
        <source>Shaping</source>
        <translation>Es wird geformt</translation>
    </message>
    <message>
        <source>Shift of all</source>
        <translation>Verschiebung aller</translation>
    </message>
    <message>
        <source>Shorter flat runs are a part of the flight.</source>
        <translation>Kürzere flache Stücke sind ein Teil des Laufs.</translation>
    </message>
    <message>
        <source>Shortest run that is a landing, metres</source>
        <translation>Kürzestes Stück, das ein Podest ist, Meter</translation>
    </message>
    <message>
        <source>Show the plan</source>
        <translation>Den Plan zeigen</translation>
    </message>
    <message>
        <source>Show the working</source>
        <translation>Den Rechenweg zeigen</translation>
    </message>
    <message>
        <source>Shrink: compacted per bank</source>
        <translation>Verdichtung: verdichtet je gewachsen</translation>
    </message>
    <message>
        <source>Side length</source>
        <translation>Länge der Seite</translation>
    </message>
    <message>
        <source>Side slopes of 1 in n: n; 0 is upright.</source>
        <translation>Seitenböschungen von 1 : n: n; 0 ist senkrecht.</translation>
    </message>
    <message>
        <source>Sides</source>
        <translation>Seiten</translation>
    </message>
    <message>
        <source>Sides lie where the CRS of the outlines has no place. Check both layers&apos; CRS.</source>
        <translation>Seiten liegen, wo das KBS der Umrisse keinen Ort hat. Das KBS beider Layer prüfen.</translation>
    </message>
    <message>
        <source>Sides with a thickened edge</source>
        <translation>Seiten mit verstärktem Rand</translation>
    </message>
    <message>
        <source>Sketch of the points, north up</source>
        <translation>Skizze der Punkte, Norden oben</translation>
    </message>
    <message>
        <source>Slope</source>
        <translation>Neigung</translation>
    </message>
    <message>
        <source>Slope length</source>
        <translation>Länge in der Neigung</translation>
    </message>
    <message>
        <source>Smallest change of a height that matters, metres</source>
        <translation>Kleinste Höhenänderung, auf die es ankommt, Meter</translation>
    </message>
    <message>
        <source>Smallest change of a length or place that matters, metres</source>
        <translation>Kleinste Änderung einer Länge oder eines Orts, auf die es ankommt, Meter</translation>
    </message>
    <message>
        <source>Some of them overlap: what two cover counts twice.</source>
        <translation>Einige überdecken einander: was zwei bedecken, zählt doppelt.</translation>
    </message>
    <message>
        <source>Spacing of plants, metres</source>
        <translation>Abstand der Pflanzen, Meter</translation>
    </message>
    <message>
        <source>Spill points</source>
        <translation>Überlaufpunkte</translation>
    </message>
    <message>
        <source>Splay of a thickened edge, metres</source>
        <translation>Anlauf eines verstärkten Rands, Meter</translation>
    </message>
    <message>
        <source>Split it into one feature for each kind.</source>
        <translation>In ein Objekt je Art aufteilen.</translation>
    </message>
    <message>
        <source>Split it there ({one:.3f} and {two:.3f} m2), or delete point {corner} ({without:.3f} m2).</source>
        <translation>Dort teilen ({one:.3f} und {two:.3f} m2) oder Punkt {corner} löschen ({without:.3f} m2).</translation>
    </message>
    <message>
        <source>Split it there ({one:.3f} and {two:.3f} m2).</source>
        <translation>Dort teilen ({one:.3f} und {two:.3f} m2).</translation>
    </message>
    <message>
        <source>Spots</source>
        <translation>Einzelpunkte</translation>
    </message>
    <message>
        <source>Square rows</source>
        <translation>Quadratverband</translation>
    </message>
    <message>
        <source>Square to the profile. It may come from a field; of a survey&apos;s profiles 0 takes the width noted on site.</source>
        <translation>Rechtwinklig zum Profil. Darf aus einem Feld kommen; bei den Profilen eines Aufmaßes nimmt 0 die vor Ort notierte Breite.</translation>
    </message>
    <message>
        <source>Staggered rows</source>
        <translation>Versetzter Verband</translation>
    </message>
    <message>
        <source>Stand on a mark with a height in both, or give the control a level of a mark in each.</source>
        <translation>Auf einem Festpunkt mit Höhe in beiden stehen oder den Passpunkten die Höhe je eines Festpunkts geben.</translation>
    </message>
    <message>
        <source>Stand on station {station} of walk {walk} once more at its end: {gains}.</source>
        <translation>Am Ende noch einmal auf Standpunkt {station} der Begehung {walk} stehen: {gains}.</translation>
    </message>
    <message>
        <source>State the CRS in a line such as `# crs: EPSG:25831` above the rows, or in the file&apos;s own way.</source>
        <translation>Das KBS in einer Zeile wie `# crs: EPSG:25831` über den Zeilen angeben, oder wie die Datei es vorsieht.</translation>
    </message>
    <message>
        <source>State the unit that the log is truly in, tape a length between two marks, or confirm with: as recorded.</source>
        <translation>Die wahre Einheit des Protokolls angeben, eine Länge zwischen zwei Festpunkten mit dem Band messen oder bestätigen mit: as recorded.</translation>
    </message>
    <message>
        <source>State them in a line &quot;# units: m&quot; above the header, or answer for {place} with m, ft or us-ft.</source>
        <translation>In einer Zeile &quot;# units: m&quot; über der Kopfzeile angeben oder für {place} mit m, ft oder us-ft antworten.</translation>
    </message>
    <message>
        <source>State them in the element Units, or answer for {place} with m, ft or us-ft.</source>
        <translation>Im Element Units angeben oder für {place} mit m, ft oder us-ft antworten.</translation>
    </message>
    <message>
        <source>Stated accuracy, without a file</source>
        <translation>Angegebene Genauigkeit, ohne Datei</translation>
    </message>
    <message>
        <source>Station</source>
        <translation>Standpunkt</translation>
    </message>
    <message>
        <source>Station {n} on mark {mark}.</source>
        <translation>Standpunkt {n} auf Festpunkt {mark}.</translation>
    </message>
    <message>
        <source>Station {n}.</source>
        <translation>Standpunkt {n}.</translation>
    </message>
    <message>
        <source>Station {station} was held for {seconds:.1f} s only.</source>
        <translation>Am Standpunkt {station} wurde nur {seconds:.1f} s gehalten.</translation>
    </message>
    <message>
        <source>Stations</source>
        <translation>Standpunkte</translation>
    </message>
    <message>
        <source>Stations behind it (x, y, z in the survey plane, metres):</source>
        <translation>Standpunkte dahinter (x, y, z in der Aufmaßebene, Meter):</translation>
    </message>
    <message>
        <source>Steeper runs are a flight. Take it larger than limits of landings, so that bad ones are seen.</source>
        <translation>Steilere Stücke sind ein Lauf. Größer nehmen als die Grenzwerte für Podeste, damit schlechte gesehen werden.</translation>
    </message>
    <message>
        <source>Steepest gradient of a landing, percent</source>
        <translation>Steilste Neigung eines Podests, Prozent</translation>
    </message>
    <message>
        <source>Stem diameter, metres</source>
        <translation>Stammdurchmesser, Meter</translation>
    </message>
    <message>
        <source>Step of the classes of depth, metres</source>
        <translation>Schritt der Tiefenklassen, Meter</translation>
    </message>
    <message>
        <source>Step that concrete is sold in, cubic metres</source>
        <translation>Schritt, in dem Beton verkauft wird, Kubikmeter</translation>
    </message>
    <message>
        <source>Steps</source>
        <translation>Treppen</translation>
    </message>
    <message>
        <source>Sto&amp;p</source>
        <translation>Anha&amp;lten</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Strip beforehand, metres</source>
        <translation>Oberbodenabtrag vorab, Meter</translation>
    </message>
    <message>
        <source>Such a station is moved onto the mark; a mark that no station is near is refused.</source>
        <translation>Ein solcher Standpunkt wird auf den Festpunkt verschoben; ein Festpunkt ohne Standpunkt in der Nähe wird abgewiesen.</translation>
    </message>
    <message>
        <source>Such as ground, stripped, formation or finished.</source>
        <translation>Etwa ground, stripped, formation oder finished.</translation>
    </message>
    <message>
        <source>Sum of the figure</source>
        <translation>Summe des Maßes</translation>
    </message>
    <message>
        <source>Summary</source>
        <translation>Zusammenfassung</translation>
    </message>
    <message>
        <source>Sur&amp;vey</source>
        <translation>Au&amp;fmaß</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Oberfläche</translation>
    </message>
    <message>
        <source>Surface of the ground</source>
        <translation>Oberfläche des Bodens</translation>
    </message>
    <message>
        <source>Surface of the section</source>
        <translation>Oberfläche des Schnitts</translation>
    </message>
    <message>
        <source>Surface under areas and ways</source>
        <translation>Oberfläche unter Flächen und Wegen</translation>
    </message>
    <message>
        <source>Surface under the slab</source>
        <translation>Oberfläche unter der Platte</translation>
    </message>
    <message>
        <source>Surface {name}</source>
        <translation>Oberfläche {name}</translation>
    </message>
    <message>
        <source>Surfaces</source>
        <translation>Oberflächen</translation>
    </message>
    <message>
        <source>Surfaces of the project</source>
        <translation>Oberflächen des Projekts</translation>
    </message>
    <message>
        <source>Surfaces that were built here say what their points are worth; other files do not.</source>
        <translation>Hier gebildete Oberflächen sagen, was ihre Punkte wert sind; andere Dateien nicht.</translation>
    </message>
    <message>
        <source>Surfaces that were built here say what their points are worth; other layers do not.</source>
        <translation>Hier gebildete Oberflächen sagen, was ihre Punkte wert sind; andere Layer nicht.</translation>
    </message>
    <message>
        <source>Surfaces, the ground first</source>
        <translation>Oberflächen, zuerst der Boden</translation>
    </message>
    <message>
        <source>Survey GeoPackage</source>
        <translation>GeoPackage des Aufmaßes</translation>
    </message>
    <message>
        <source>Survey walks</source>
        <translation>Begehungen aufmessen</translation>
    </message>
    <message>
        <source>Surveying the plan</source>
        <translation>Der Plan wird aufgemessen</translation>
    </message>
    <message>
        <source>Surveying {name}</source>
        <translation>{name} wird aufgemessen</translation>
    </message>
    <message>
        <source>Sweep</source>
        <translation>Öffnungswinkel</translation>
    </message>
    <message>
        <source>Sweep = what the arc turns through, positive to the left along the walk: θ = 2·asin(chord / 2r).</source>
        <translation>Öffnungswinkel = der Winkel, um den der Bogen dreht, positiv nach links im Gehen: θ = 2·asin(Sehne / 2r).</translation>
    </message>
    <message>
        <source>TR-01: Works lie at the protected root area (rows {rows}), and what they take is not known, for some cannot be measured (rows {bad}). Mend their outlines; see the overlaps for why.</source>
        <translation>TR-01: An der geschützten Wurzelfläche liegen Arbeiten (Zeilen {rows}), und was sie einnehmen, ist nicht bekannt, denn einige lassen sich nicht messen (Zeilen {bad}). Ihre Umrisse berichtigen; warum, steht bei den Überdeckungen.</translation>
    </message>
    <message>
        <source>TR-01: Works take {area:.2f} m2 of the protected root area (rows {rows}). Move them, dig by hand, or enter the arborist&apos;s name.</source>
        <translation>TR-01: Arbeiten nehmen {area:.2f} m2 der geschützten Wurzelfläche ein (Zeilen {rows}). Sie verschieben, von Hand graben oder den Namen des Baumsachverständigen eintragen.</translation>
    </message>
    <message>
        <source>Table of limits</source>
        <translation>Tabelle der Grenzwerte</translation>
    </message>
    <message>
        <source>Tables</source>
        <translation>Tabellen</translation>
    </message>
    <message>
        <source>Take back</source>
        <translation>Zurücknehmen</translation>
    </message>
    <message>
        <source>Take five times what vertices are worth, or more: a smaller one leaves them as recorded.</source>
        <translation>Das Fünffache dessen nehmen, was Stützpunkte wert sind, oder mehr: weniger lässt sie, wie aufgenommen.</translation>
    </message>
    <message>
        <source>Take it out, or cut a hole for it.</source>
        <translation>Entfernen oder eine Aussparung dafür ausschneiden.</translation>
    </message>
    <message>
        <source>Take its outline, or measure it as a surface.</source>
        <translation>Ihren Umriss nehmen oder sie als Oberfläche messen.</translation>
    </message>
    <message>
        <source>Take levels all over the ground, not only along its edges.</source>
        <translation>Höhen über den ganzen Boden aufnehmen, nicht nur entlang seiner Kanten.</translation>
    </message>
    <message>
        <source>Take levels there, or draw the boundary or a void so that it is left out.</source>
        <translation>Dort Höhen aufnehmen oder die Begrenzung oder eine Aussparung so zeichnen, dass es ausgelassen wird.</translation>
    </message>
    <message>
        <source>Take levels there, or draw the boundary or a void so that they are left out.</source>
        <translation>Dort Höhen aufnehmen oder die Begrenzung oder eine Aussparung so zeichnen, dass sie ausgelassen werden.</translation>
    </message>
    <message>
        <source>Take one of each out; the rest of the file was read.</source>
        <translation>Von jedem eines entfernen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Take out</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Take out the points of one round.</source>
        <translation>Die Punkte eines Umlaufs entfernen.</translation>
    </message>
    <message>
        <source>Take out the row that is not meant.</source>
        <translation>Die Zeile entfernen, die nicht gemeint ist.</translation>
    </message>
    <message>
        <source>Take the hole out, or make it smaller.</source>
        <translation>Die Aussparung entfernen oder verkleinern.</translation>
    </message>
    <message>
        <source>Take the inner one out, or make it a part: ground inside a hole is not taken off twice.</source>
        <translation>Die innere entfernen oder zu einem Teil machen: Boden in einer Aussparung wird nicht zweimal abgezogen.</translation>
    </message>
    <message>
        <source>Take the line out, or keep the logs in files of their own; the rest of the file was read.</source>
        <translation>Die Zeile entfernen oder die Protokolle in eigenen Dateien führen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Take the rows out if they are old; check the places if they are not.</source>
        <translation>Die Zeilen entfernen, wenn sie alt sind; wenn nicht, die Orte prüfen.</translation>
    </message>
    <message>
        <source>Take the stations of one round out of the log, or give the second round a name of its own.</source>
        <translation>Die Standpunkte eines Umlaufs aus dem Protokoll nehmen oder dem zweiten Umlauf einen eigenen Namen geben.</translation>
    </message>
    <message>
        <source>Take their lines out if they are not of this site.</source>
        <translation>Ihre Zeilen entfernen, wenn sie nicht zu diesem Gelände gehören.</translation>
    </message>
    <message>
        <source>Taken once, before the step of the order.</source>
        <translation>Einmal genommen, vor dem Schritt der Bestellung.</translation>
    </message>
    <message>
        <source>Tape it again, or leave this tape out; until then use the figures for a budget only.</source>
        <translation>Noch einmal mit dem Band messen oder dieses Maß weglassen; bis dahin die Maße nur zum Überschlag nehmen.</translation>
    </message>
    <message>
        <source>Tape one length of 10 m or more between two marks, or let the control&apos;s own lengths count as taped.</source>
        <translation>Eine Länge von 10 m oder mehr zwischen zwei Festpunkten mit dem Band messen, oder die Längen der Passpunkte als gemessen gelten lassen.</translation>
    </message>
    <message>
        <source>Tape one length of 10 m or more between two marks.</source>
        <translation>Eine Länge von 10 m oder mehr zwischen zwei Festpunkten mit dem Band messen.</translation>
    </message>
    <message>
        <source>Tape the length {marks} (one sigma {sd:g} m): {gains}.</source>
        <translation>Die Länge {marks} mit dem Band messen (Standardabweichung {sd:g} m): {gains}.</translation>
    </message>
    <message>
        <source>Tape {start} to {end}: taped {taped:.3f} m, walked {computed:.3f} m, difference {difference:+.3f} m where {allowed:.3f} m (95 %) would be expected.</source>
        <translation>Bandmaß {start} bis {end}: gemessen {taped:.3f} m, begangen {computed:.3f} m, Unterschied {difference:+.3f} m; zu erwarten wären {allowed:.3f} m (95 %).</translation>
    </message>
    <message>
        <source>Tape {start} to {end}: {distance:.3f} m is {ratio:.4g} times the length walked; {true} would fit.</source>
        <translation>Bandmaß {start} bis {end}: {distance:.3f} m ist das {ratio:.4g}-Fache der begangenen Länge; {true} würde passen.</translation>
    </message>
    <message>
        <source>Taped lengths</source>
        <translation>Mit dem Band gemessene Längen</translation>
    </message>
    <message>
        <source>Text such as {&quot;depth_m&quot;: [[0, 0.4], [12.5, 0.55]]}: pairs of metres along the line and size, of width_m, depth_m and invert_m. Of a survey&apos;s lengths the field sizes_along counts.</source>
        <translation>Text wie {&quot;depth_m&quot;: [[0, 0.4], [12.5, 0.55]]}: Paare aus Metern entlang der Linie und Größe, von width_m, depth_m und invert_m. Bei den Längen eines Aufmaßes gilt das Feld sizes_along.</translation>
    </message>
    <message>
        <source>The CRS &quot;{crs}&quot; is not known. Give an authority code such as EPSG:25831, or its WKT.</source>
        <translation>Das KBS „{crs}“ ist unbekannt. Einen Code wie EPSG:25831 angeben oder sein WKT.</translation>
    </message>
    <message>
        <source>The CRS {crs} has no plan.</source>
        <translation>Das KBS {crs} hat keine Lage.</translation>
    </message>
    <message>
        <source>The CRS {crs} is of no place on the earth. Choose a projected CRS for the map.</source>
        <translation>Das KBS {crs} gehört zu keinem Ort auf der Erde. Ein projiziertes KBS für die Karte wählen.</translation>
    </message>
    <message>
        <source>The accuracy is stated as</source>
        <translation>Die Genauigkeit ist angegeben als</translation>
    </message>
    <message>
        <source>The arc through ({x:.3f}, {y:.3f}) is none: that point lies in line with the arc&apos;s ends, beyond them.</source>
        <translation>Der Bogen durch ({x:.3f}, {y:.3f}) ist keiner: der Punkt liegt in einer Linie mit den Enden des Bogens, jenseits von ihnen.</translation>
    </message>
    <message>
        <source>The base {one} to {other} is {walked:.3f} m walked and {mapped:.3f} m on the map (ground length), {difference:+.3f} m apart.{hint}</source>
        <translation>Die Basis {one} bis {other} ist {walked:.3f} m begangen und {mapped:.3f} m auf der Karte (Länge am Boden), Unterschied {difference:+.3f} m.{hint}</translation>
    </message>
    <message>
        <source>The bedding is {bedding} m thick. Give 0 or more.</source>
        <translation>Die Bettung ist {bedding} m dick. 0 oder mehr angeben.</translation>
    </message>
    <message>
        <source>The bottom stands {above:.3f} m above the ground at {at:.2f} m along the line. Correct the level or the depth there, or end the line before.</source>
        <translation>Die Sohle steht bei {at:.2f} m der Linie {above:.3f} m über dem Boden. Dort die Höhe oder die Tiefe berichtigen oder die Linie vorher enden lassen.</translation>
    </message>
    <message>
        <source>The bounds of the bands do not rise. Give them from the flattest to the steepest.</source>
        <translation>Die Grenzen der Neigungsklassen steigen nicht. Sie von der flachsten zur steilsten angeben.</translation>
    </message>
    <message>
        <source>The breaklines run so close to each other that their crossings do not come to an end. Merge points within a smaller distance than {within:g} m, or thin them out.</source>
        <translation>Die Bruchkanten laufen so nah aneinander, dass ihre Kreuzungen kein Ende nehmen. Punkte in einem kleineren Abstand als {within:g} m zusammenlegen oder sie ausdünnen.</translation>
    </message>
    <message>
        <source>The breaklines {line} and {other} meet at {place} with heights that differ by {off:.3f} m ({low:.3f} and {high:.3f}), more than three times what they are worth.</source>
        <translation>Die Bruchkanten {line} und {other} treffen bei {place} mit Höhen aufeinander, die sich um {off:.3f} m unterscheiden ({low:.3f} und {high:.3f}), mehr als das Dreifache dessen, was sie wert sind.</translation>
    </message>
    <message>
        <source>The chance that it is allowed is {n} %.</source>
        <translation>Die Wahrscheinlichkeit, dass es erlaubt ist, beträgt {n} %.</translation>
    </message>
    <message>
        <source>The clear width needs the library {library}, which is not there. Install it, or give the middle of the ramp alone.</source>
        <translation>Die lichte Breite braucht die Bibliothek {library}, die nicht da ist. Sie installieren oder nur die Mitte der Rampe angeben.</translation>
    </message>
    <message>
        <source>The column fid has values twice or not at all; the rows are numbered anew.</source>
        <translation>Die Spalte fid hat Werte doppelt oder gar nicht; die Zeilen werden neu nummeriert.</translation>
    </message>
    <message>
        <source>The column {column} has no direction for this row. Give it degrees clockwise from grid north.</source>
        <translation>Die Spalte {column} hat für diese Zeile keine Richtung. Grad im Uhrzeigersinn von Gitternord angeben.</translation>
    </message>
    <message>
        <source>The control gives no accuracy (sd_xy) for {mark}; 0.05 m per axis is assumed.</source>
        <translation>Die Passpunkte geben für {mark} keine Genauigkeit (sd_xy) an; angenommen sind 0,05 m je Achse.</translation>
    </message>
    <message>
        <source>The corner at {x:.3f}, {y:.3f} is sharper than 11.5 degrees: moved out it would reach far past the outline. Cut the corner off.</source>
        <translation>Die Ecke bei {x:.3f}, {y:.3f} ist spitzer als 11,5 Grad: nach außen versetzt würde sie weit über den Umriss hinausreichen. Die Ecke abschneiden.</translation>
    </message>
    <message>
        <source>The crossfall over the surface is taken across it; a row&apos;s own width_m counts first. 0: that of the triangles under the line.</source>
        <translation>Das Quergefälle über der Oberfläche wird über diese Breite genommen; ein eigenes width_m der Zeile zählt zuerst. 0: das der Dreiecke unter der Linie.</translation>
    </message>
    <message>
        <source>The decisions file answers {code} at {places}, but nothing asks that now.</source>
        <translation>Die Entscheidungsdatei beantwortet {code} bei {places}, aber danach fragt jetzt nichts.</translation>
    </message>
    <message>
        <source>The decisions file answers {code} at {place} twice: {answer} is overruled by {last} further down (line {line}).</source>
        <translation>Die Entscheidungsdatei beantwortet {code} bei {place} zweimal: {answer} wird von {last} weiter unten (Zeile {line}) aufgehoben.</translation>
    </message>
    <message>
        <source>The decisions file answers {code} at {place} with {answer}, which it does not take.</source>
        <translation>Die Entscheidungsdatei beantwortet {code} bei {place} mit {answer}; das wird nicht angenommen.</translation>
    </message>
    <message>
        <source>The depth is within what it is worth: cannot tell whether water stands here. Level it better.</source>
        <translation>Die Tiefe liegt innerhalb dessen, was sie wert ist: es lässt sich nicht sagen, ob hier Wasser steht. Die Höhen besser messen.</translation>
    </message>
    <message>
        <source>The depth that is given or noted goes before inverts; not used: {names}.</source>
        <translation>Die angegebene oder notierte Tiefe geht Sohlhöhen vor; nicht verwendet: {names}.</translation>
    </message>
    <message>
        <source>The developed area of faces that stand, lean or curve: what is clad, rendered, turfed or lined. True to the ground, whatever the layer&apos;s CRS.

A line with a width is a profile up a face, and its area is its length along the slope times the width. Two lines of one feature whose parts are called foot and top, or left and right, are the edges of a face of straight rulings between them; where both are closed, as of a planter, it does not count where either begins. A polygon with heights is an outline in a plane of its own, upright or leaning, holes out. Arcs are circles through their three points in space, in whichever plane these lie.

Every row comes back with its own columns and, added, face_m2, length_m (of the profile, the mean of two edges, an outline&apos;s outer edge), each with its one-sigma, off_plane_m, and why a row was refused. Of two edges the figures stand in the row of foot or left.

Retaining structures follow local codes and a licensed practitioner&apos;s judgement.</source>
        <translation>Die abgewickelte Fläche von Ansichtsflächen, die stehen, sich neigen oder krümmen: was verkleidet, verputzt, mit Rasen belegt oder ausgekleidet wird. Wahr am Boden, in jedem KBS des Layers.

Eine Linie mit einer Breite ist ein Profil eine Ansichtsfläche hinauf, und deren Fläche ist seine Länge in der Neigung mal der Breite. Zwei Linien eines Objekts, deren Teile foot und top oder left und right heißen, sind die Kanten einer Ansichtsfläche aus geraden Erzeugenden dazwischen; sind beide geschlossen, wie bei einem Pflanzbeet mit Rand, so ist es gleich, wo jede beginnt. Ein Polygon mit Höhen ist ein Umriss in einer eigenen Ebene, senkrecht oder geneigt, Aussparungen abgezogen. Bögen sind Kreise durch ihre drei Punkte im Raum, in welcher Ebene diese auch liegen.

Jede Zeile kommt mit ihren eigenen Spalten zurück; dazu: face_m2, length_m (des Profils, das Mittel zweier Kanten, der äußere Rand eines Umrisses), jedes mit seiner Standardabweichung, off_plane_m, und warum eine Zeile abgewiesen wurde. Bei zwei Kanten stehen die Maße in der Zeile von foot oder left.

Stützbauwerke folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute.</translation>
    </message>
    <message>
        <source>The edges of the ramp touch at {at:.2f} m along it. Draw each along its own side.</source>
        <translation>Die Ränder der Rampe berühren sich bei {at:.2f} m ihrer Länge. Jeden entlang seiner eigenen Seite zeichnen.</translation>
    </message>
    <message>
        <source>The ends of the curve are one point.</source>
        <translation>Die Enden der Kurve sind ein Punkt.</translation>
    </message>
    <message>
        <source>The face has no width above 0. Give its width, or draw its other edge.</source>
        <translation>Die Ansichtsfläche hat keine Breite größer als 0. Ihre Breite angeben oder ihre andere Kante zeichnen.</translation>
    </message>
    <message>
        <source>The far corner first, then the sizes: the worst for its size at the top.</source>
        <translation>Zuerst die ferne Ecke, dann die Größen: die im Verhältnis schlechteste oben.</translation>
    </message>
    <message>
        <source>The feature, which figure of it, and the limit that it is held against</source>
        <translation>Das Objekt, welches seiner Maße, und der Grenzwert, an dem es geprüft wird</translation>
    </message>
    <message>
        <source>The field feature where none is chosen.</source>
        <translation>Das Feld feature, wenn keines gewählt ist.</translation>
    </message>
    <message>
        <source>The field part where none is chosen. Its words foot and top, left and right, tell the two edges.</source>
        <translation>Das Feld part, wenn keines gewählt ist. Seine Wörter foot und top, left und right sagen, welche der zwei Kanten es ist.</translation>
    </message>
    <message>
        <source>The field {column} has a size at {at:.3f} m along the line, which is {length:.3f} m long. Correct the place, or take the line that was meant.</source>
        <translation>Das Feld {column} hat eine Größe bei {at:.3f} m der Linie, die {length:.3f} m lang ist. Den Ort berichtigen oder die gemeinte Linie nehmen.</translation>
    </message>
    <message>
        <source>The field {column} holds &quot;{text}&quot;. Write pairs of metres along the line and size, such as {{&quot;depth_m&quot;: [[0, 0.4], [12.5, 0.55]]}}, or empty it.</source>
        <translation>Das Feld {column} enthält „{text}“. Paare aus Metern entlang der Linie und Größe schreiben, etwa {{&quot;depth_m&quot;: [[0, 0.4], [12.5, 0.55]]}}, oder es leeren.</translation>
    </message>
    <message>
        <source>The field {column} names {name}, which is no size of a trench. Write width_m, depth_m or invert_m.</source>
        <translation>Das Feld {column} nennt {name}, was keine Größe eines Grabens ist. width_m, depth_m oder invert_m schreiben.</translation>
    </message>
    <message>
        <source>The figure, its 95 % interval, and what is allowed</source>
        <translation>Das Maß, sein 95-%-Bereich und was erlaubt ist</translation>
    </message>
    <message>
        <source>The geometry is a collection of several kinds, not {wanted}.</source>
        <translation>Die Geometrie ist eine Sammlung verschiedener Arten, nicht {wanted}.</translation>
    </message>
    <message>
        <source>The geometry is a surface of faces in space, not {wanted}.</source>
        <translation>Die Geometrie ist eine Oberfläche aus Flächen im Raum, nicht {wanted}.</translation>
    </message>
    <message>
        <source>The geometry is damaged or of a kind that is not known.</source>
        <translation>Die Geometrie ist beschädigt oder von unbekannter Art.</translation>
    </message>
    <message>
        <source>The geometry is {what}, not {wanted}.</source>
        <translation>Die Geometrie ist {what}, nicht {wanted}.</translation>
    </message>
    <message>
        <source>The ground as it is to be. Give this, or a level, or a plane.</source>
        <translation>Der Boden, wie er werden soll. Dies angeben, oder eine Höhe, oder eine Ebene.</translation>
    </message>
    <message>
        <source>The ground between the points ±{half:.3f} {unit} besides</source>
        <translation>Der Boden zwischen den Punkten außerdem ±{half:.3f} {unit}</translation>
    </message>
    <message>
        <source>The ground between the points: no more than that was found</source>
        <translation>Der Boden zwischen den Punkten: nicht mehr als das wurde gefunden</translation>
    </message>
    <message>
        <source>The ground between the points: not known</source>
        <translation>Der Boden zwischen den Punkten: nicht bekannt</translation>
    </message>
    <message>
        <source>The ground stands above the slab&apos;s top by up to {over:.3f} m over {area:.2f} m2. Dig it away in the surface, or lift the slab.</source>
        <translation>Der Boden steht auf {area:.2f} m2 um bis zu {over:.3f} m über der Oberseite der Platte. Ihn in der Oberfläche abtragen oder die Platte anheben.</translation>
    </message>
    <message>
        <source>The header of {file} names the column &quot;{column}&quot; twice (fields {one} and {two}). Rename one.</source>
        <translation>Die Kopfzeile von {file} nennt die Spalte „{column}“ zweimal (Felder {one} und {two}). Eine umbenennen.</translation>
    </message>
    <message>
        <source>The height misclosure is not spread. Look for a changed pole height (WK-03), or walk the heights again.</source>
        <translation>Der Höhenabschlussfehler wird nicht verteilt. Nach einer geänderten Stabhöhe suchen (WK-03) oder die Höhen neu begehen.</translation>
    </message>
    <message>
        <source>The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives (the same could be said of {also}).</source>
        <translation>Die Höhe des Festpunkts {mark} in Begehung {walk} am Standpunkt {station} weicht {size:.3f} m von der ab, die sich aus dem Übrigen ergibt (dasselbe gilt für {also}).</translation>
    </message>
    <message>
        <source>The height of mark {mark} in walk {walk} at station {station} is {size:.3f} m from what the rest gives.</source>
        <translation>Die Höhe des Festpunkts {mark} in Begehung {walk} am Standpunkt {station} weicht {size:.3f} m von der ab, die sich aus dem Übrigen ergibt.</translation>
    </message>
    <message>
        <source>The heights of {feature} fit clearly better with one jump of {jump:+.2f} m from station {station} on. No step is drawn there.</source>
        <translation>Die Höhen von {feature} passen deutlich besser mit einem Sprung von {jump:+.2f} m ab Standpunkt {station}. Dort ist keine Stufe gezeichnet.</translation>
    </message>
    <message>
        <source>The heights of {walk} were moved by {shift:+.3f} m to those of the levels, or of the first list: they are in another datum, or a mark or a level is not the same point.</source>
        <translation>Die Höhen von {walk} wurden um {shift:+.3f} m auf die der Höhenfestpunkte oder der ersten Liste verschoben: sie haben ein anderes Höhenbezugssystem, oder ein Festpunkt oder eine Höhe ist nicht derselbe Punkt.</translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) covers the whole of its outer ring.</source>
        <translation>Die Aussparung bei ({x:.3f}, {y:.3f}) bedeckt ihren ganzen äußeren Ring.</translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) lies inside another hole.</source>
        <translation>Die Aussparung bei ({x:.3f}, {y:.3f}) liegt in einer anderen Aussparung.</translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) lies outside its outer ring.</source>
        <translation>Die Aussparung bei ({x:.3f}, {y:.3f}) liegt außerhalb ihres äußeren Rings.</translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) lies over another hole, so that their common ground would be taken off twice.</source>
        <translation>Die Aussparung bei ({x:.3f}, {y:.3f}) liegt über einer anderen; ihr gemeinsamer Boden würde zweimal abgezogen.</translation>
    </message>
    <message>
        <source>The hole at ({x:.3f}, {y:.3f}) reaches over the edge of its outer ring.</source>
        <translation>Die Aussparung bei ({x:.3f}, {y:.3f}) reicht über den Rand ihres äußeren Rings.</translation>
    </message>
    <message>
        <source>The instruments file has no row {instrument}: walk {walk} goes by the default, or its own sd.</source>
        <translation>Die Gerätedatei hat keine Zeile {instrument}: für Begehung {walk} gilt die Voreinstellung oder ihr eigenes sd.</translation>
    </message>
    <message>
        <source>The interval of contours is {interval:g} m. Give one above 0.</source>
        <translation>Der Abstand der Höhenlinien ist {interval:g} m. Einen größer als 0 angeben.</translation>
    </message>
    <message>
        <source>The invert has a level at one end alone. Give both, or the depth.</source>
        <translation>Die Sohle hat nur an einem Ende eine Höhe. Beide angeben, oder die Tiefe.</translation>
    </message>
    <message>
        <source>The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other levels give (the same could be said of {also}).</source>
        <translation>Die bekannte Höhe des Festpunkts {mark}, {height:.3f} m, weicht {size:.3f} m von der ab, die Begehungen und übrige Höhen ergeben (dasselbe gilt für {also}).</translation>
    </message>
    <message>
        <source>The known level of mark {mark}, {height:.3f} m, is {size:.3f} m from what the walks and the other levels give.</source>
        <translation>Die bekannte Höhe des Festpunkts {mark}, {height:.3f} m, weicht {size:.3f} m von der ab, die Begehungen und übrige Höhen ergeben.</translation>
    </message>
    <message>
        <source>The later survey lies {shift:.3f} m beside the earlier one and is turned by {turn:.4f} degrees, more than both placements state. This is taken off, and is no change of things. Check the control of both.</source>
        <translation>Das spätere Aufmaß liegt {shift:.3f} m neben dem früheren und ist um {turn:.4f} Grad gedreht, mehr als beide Einpassungen angeben. Das wird abgezogen und ist keine Änderung der Dinge. Die Passpunkte beider prüfen.</translation>
    </message>
    <message>
        <source>The layer has no CRS, so its sizes on the ground are unknown. Set the layer&apos;s CRS (it says what the coordinates are; it does not move them), then run this again.</source>
        <translation>Der Layer hat kein KBS; seine Maße am Boden sind unbekannt. Das KBS des Layers setzen (es sagt, was die Koordinaten sind; es verschiebt sie nicht), dann noch einmal starten.</translation>
    </message>
    <message>
        <source>The layer holds neither areas nor lines. Choose a layer of one of them.</source>
        <translation>Der Layer enthält weder Flächen noch Linien. Einen Layer mit einem davon wählen.</translation>
    </message>
    <message>
        <source>The layer holds {count} surfaces: {names}. Filter it to the one that is meant.</source>
        <translation>Der Layer enthält {count} Oberflächen: {names}. Ihn auf die gemeinte filtern.</translation>
    </message>
    <message>
        <source>The layer holds {there}, and {wanted} are to be measured. Choose a layer of them.</source>
        <translation>Der Layer enthält {there}; zu messen sind {wanted}. Einen solchen Layer wählen.</translation>
    </message>
    <message>
        <source>The layer of depths has one area for each.</source>
        <translation>Der Layer der Tiefen hat für jede eine Fläche.</translation>
    </message>
    <message>
        <source>The layer of the baseline holds {count} lines. Select the one to station, or join its parts.</source>
        <translation>Der Layer der Achse enthält {count} Linien. Die zu stationierende wählen oder ihre Teile verbinden.</translation>
    </message>
    <message>
        <source>The layer of {name} holds several surfaces. Filter it to the one that is meant.</source>
        <translation>Der Layer von {name} enthält mehrere Oberflächen. Ihn auf die gemeinte filtern.</translation>
    </message>
    <message>
        <source>The layer {layer} cannot be edited. Choose another layer, or a new plan.</source>
        <translation>Der Layer {layer} ist nicht bearbeitbar. Einen anderen Layer oder einen neuen Plan wählen.</translation>
    </message>
    <message>
        <source>The layer {layer} does not take it. Choose another layer, or a new plan.</source>
        <translation>Der Layer {layer} nimmt es nicht an. Einen anderen Layer oder einen neuen Plan wählen.</translation>
    </message>
    <message>
        <source>The layer {layer} has no CRS, so its sizes on the ground are unknown. Set the layer&apos;s CRS (it says what the coordinates are; it does not move them), then run this again.</source>
        <translation>Der Layer {layer} hat kein KBS; seine Maße am Boden sind unbekannt. Das KBS des Layers setzen (es sagt, was die Koordinaten sind; es verschiebt sie nicht), dann noch einmal starten.</translation>
    </message>
    <message>
        <source>The layer {layer} has no column for the names of marks. Choose one, or a new plan.</source>
        <translation>Der Layer {layer} hat keine Spalte für die Namen der Festpunkte. Eine wählen, oder einen neuen Plan.</translation>
    </message>
    <message>
        <source>The layer {layer} has no column that says whether mark {mark} is paired. Choose one.</source>
        <translation>Der Layer {layer} hat keine Spalte, die sagt, ob Festpunkt {mark} gepaart ist. Eine wählen.</translation>
    </message>
    <message>
        <source>The layer&apos;s CRS cannot be read: {why}. Set it again.</source>
        <translation>Das KBS des Layers ist nicht lesbar: {why}. Neu setzen.</translation>
    </message>
    <message>
        <source>The layer&apos;s CRS {crs} has no plan coordinates. Reproject the layer into a projected or geographic CRS.</source>
        <translation>Das KBS {crs} des Layers hat keine Lagekoordinaten. Den Layer in ein projiziertes oder geographisches KBS umprojizieren.</translation>
    </message>
    <message>
        <source>The layers hold {count} surfaces: {names}. Filter each layer to the one that is meant.</source>
        <translation>Die Layer enthalten {count} Oberflächen: {names}. Jeden Layer auf die gemeinte filtern.</translation>
    </message>
    <message>
        <source>The leg from {start} to {end} of {feature} took {seconds:.0f} s of moving.</source>
        <translation>Die Strecke von {start} bis {end} von {feature} dauerte {seconds:.0f} s Gehzeit.</translation>
    </message>
    <message>
        <source>The level is {level}. Give a height in metres.</source>
        <translation>Die Höhe ist {level}. Eine Höhe in Metern angeben.</translation>
    </message>
    <message>
        <source>The level {level:g} m lies {off:.0f} m beyond the surface&apos;s heights, {low:.2f} to {high:.2f} m. Is it in feet, or of another datum?</source>
        <translation>Die Höhe {level:g} m liegt {off:.0f} m außerhalb der Höhen der Oberfläche, {low:.2f} bis {high:.2f} m. Ist sie in Fuß oder in einem anderen Höhenbezugssystem?</translation>
    </message>
    <message>
        <source>The library {library} is not installed.</source>
        <translation>Die Bibliothek {library} ist nicht installiert.</translation>
    </message>
    <message>
        <source>The limits are the examples shipped. Give a table of the limits that hold where you build.</source>
        <translation>Die Grenzwerte sind die mitgelieferten Beispiele. Eine Tabelle der Grenzwerte angeben, die am Ort des Baus gelten.</translation>
    </message>
    <message>
        <source>The line ends where it begins, and its heights there differ by {off:.3f} m. Give both one height, or end the line beside its start.</source>
        <translation>Die Linie endet, wo sie beginnt, und ihre Höhen dort weichen um {off:.3f} m ab. Beiden eine Höhe geben oder die Linie neben ihrem Anfang enden lassen.</translation>
    </message>
    <message>
        <source>The line goes straight up at {at:.2f} m along it, which has no gradient. Take its steps as steps.</source>
        <translation>Die Linie geht bei {at:.2f} m ihrer Länge senkrecht hinauf; das hat keine Neigung. Ihre Stufen als Treppe nehmen.</translation>
    </message>
    <message>
        <source>The line has fewer than two points. Draw it through its stations.</source>
        <translation>Die Linie hat weniger als zwei Punkte. Sie durch ihre Standpunkte zeichnen.</translation>
    </message>
    <message>
        <source>The line has no heights of its own and leaves the surface. Give it heights, shorten it, or extend the surface.</source>
        <translation>Die Linie hat keine eigenen Höhen und verlässt die Oberfläche. Ihr Höhen geben, sie kürzen oder die Oberfläche weiter ausdehnen.</translation>
    </message>
    <message>
        <source>The line has no heights, so that it has no gradient. Give each vertex one.</source>
        <translation>Die Linie hat keine Höhen und daher keine Neigung. Jedem Stützpunkt eine geben.</translation>
    </message>
    <message>
        <source>The line has several parts. Split it into rows of one part each.</source>
        <translation>Die Linie hat mehrere Teile. Sie in Zeilen mit je einem Teil aufteilen.</translation>
    </message>
    <message>
        <source>The line leaves the surface. Shorten it, or extend the surface.</source>
        <translation>Die Linie verlässt die Oberfläche. Sie kürzen oder die Oberfläche weiter ausdehnen.</translation>
    </message>
    <message>
        <source>The line lies outside of what the survey&apos;s CRS can hold.</source>
        <translation>Die Linie liegt außerhalb dessen, was das KBS des Aufmaßes fassen kann.</translation>
    </message>
    <message>
        <source>The line meets no edge or station that has a height. Draw it across the edges.</source>
        <translation>Die Linie trifft keine Kante und keinen Standpunkt mit einer Höhe. Sie quer über die Kanten zeichnen.</translation>
    </message>
    <message>
        <source>The line of the trench has no length. Draw it along the trench.</source>
        <translation>Die Linie des Grabens hat keine Länge. Sie entlang dem Graben zeichnen.</translation>
    </message>
    <message>
        <source>The line turns back on itself at {at:.2f} m along it, by more than 168 degrees. Draw the way back as a row of its own.</source>
        <translation>Die Linie kehrt bei {at:.2f} m ihrer Länge um mehr als 168 Grad in sich zurück. Den Rückweg als eigene Zeile zeichnen.</translation>
    </message>
    <message>
        <source>The line was given up.</source>
        <translation>Die Linie wurde verworfen.</translation>
    </message>
    <message>
        <source>The log {file} is in degrees, at {lon:.4f}, {lat:.4f} (longitude, latitude), and no CRS was chosen for the map: the survey goes to {crs}.</source>
        <translation>Das Protokoll {file} ist in Grad, bei {lon:.4f}, {lat:.4f} (Länge, Breite), und für die Karte wurde kein KBS gewählt: das Aufmaß kommt in {crs}.</translation>
    </message>
    <message>
        <source>The logs of this survey are not known here. To answer its findings, place it or survey it again, start a new job from the folder of its logs.</source>
        <translation>Die Protokolle dieses Aufmaßes sind hier nicht bekannt. Um seine Befunde zu beantworten, es einzupassen oder neu aufzumessen, eine neue Arbeit aus dem Ordner seiner Protokolle beginnen.</translation>
    </message>
    <message>
        <source>The map of depths needs the library {library}, which is not there. Install it, or leave the map out.</source>
        <translation>Die Karte der Tiefen braucht die Bibliothek {library}, die nicht da ist. Sie installieren oder die Karte weglassen.</translation>
    </message>
    <message>
        <source>The map point of mark {mark} has a one-sigma of {sigma:g} m. Give {most:g} m at the most.</source>
        <translation>Der Kartenpunkt des Festpunkts {mark} hat eine Standardabweichung von {sigma:g} m. Höchstens {most:g} m angeben.</translation>
    </message>
    <message>
        <source>The map points do not fit the survey: {mark} is {residual:.3f} m off.{hint}</source>
        <translation>Die Passpunkte passen nicht zum Aufmaß: {mark} liegt {residual:.3f} m daneben.{hint}</translation>
    </message>
    <message>
        <source>The map points were brought from {source} to {target} by a way that is good to {accuracy:.2g} m: the whole site can be that far off. Its sizes are not touched.</source>
        <translation>Die Passpunkte wurden von {source} nach {target} auf einem Weg gebracht, der auf {accuracy:.2g} m stimmt: das ganze Gelände kann so weit daneben liegen. Seine Maße sind davon nicht berührt.</translation>
    </message>
    <message>
        <source>The marks agree less well than the instrument should give: the test {what} has a chance of {p:.1e}, and no single stand explains it.</source>
        <translation>Die Festpunkte stimmen schlechter überein, als das Gerät geben sollte: die Prüfung {what} hat eine Wahrscheinlichkeit von {p:.1e}, und kein einzelner Stand erklärt es.</translation>
    </message>
    <message>
        <source>The marks have no column mark or name. Choose the column that names them.</source>
        <translation>Die Festpunkte haben keine Spalte mark oder name. Die Spalte wählen, die sie nennt.</translation>
    </message>
    <message>
        <source>The marks that walk {walk} shares with the others ({shared}) lie in one place, so its turn is not known. It is left out.</source>
        <translation>Die Festpunkte, die Begehung {walk} mit den anderen gemeinsam hat ({shared}), liegen an einer Stelle; ihre Drehung ist nicht bekannt. Sie wird weggelassen.</translation>
    </message>
    <message>
        <source>The marks that walk {walk} shares with the others are {base:.1f} m apart at the most, and it reaches {reach:.1f} m away: expect {far:.2f} m (95 %) at station {station}.</source>
        <translation>Die Festpunkte, die Begehung {walk} mit den anderen gemeinsam hat, liegen höchstens {base:.1f} m auseinander, und sie reicht {reach:.1f} m weit: am Standpunkt {station} {far:.2f} m erwarten (95 %).</translation>
    </message>
    <message>
        <source>The marks, tapes and levels do not hold the walks together once what disagrees is let go. Answer the findings on marks with leave out or exchange, or mend the logs.</source>
        <translation>Festpunkte, Bandmaße und Höhen halten die Begehungen nicht zusammen, wenn wegfällt, was nicht stimmt. Die Befunde zu Festpunkten mit leave out oder exchange beantworten oder die Protokolle berichtigen.</translation>
    </message>
    <message>
        <source>The mesh {name} holds no faces. Choose a mesh layer of triangles.</source>
        <translation>Das Netz {name} enthält keine Flächen. Einen Netzlayer aus Dreiecken wählen.</translation>
    </message>
    <message>
        <source>The misclosure is not spread. Look at these legs, and walk the section again or split the walk there.</source>
        <translation>Der Abschlussfehler wird nicht verteilt. Diese Strecken ansehen und den Abschnitt neu begehen oder die Begehung dort teilen.</translation>
    </message>
    <message>
        <source>The numbers above come to {sum}, not to the {stored} that is stored: was the row changed after the survey was made?</source>
        <translation>Die obigen Zahlen ergeben {sum}, nicht die gespeicherten {stored}: wurde die Zeile geändert, nachdem das Aufmaß entstanden war?</translation>
    </message>
    <message>
        <source>The numbers above come to {sum}, not to the {stored} that is stored: was the row changed since?</source>
        <translation>Die obigen Zahlen ergeben {sum}, nicht die gespeicherten {stored}: wurde die Zeile seither geändert?</translation>
    </message>
    <message>
        <source>The one-sigma of a row is {sigma} m. Give one above 0, or none.</source>
        <translation>Die Standardabweichung einer Zeile ist {sigma} m. Eine größer als 0 angeben, oder keine.</translation>
    </message>
    <message>
        <source>The one-sigma of a vertex is {sigma} m. Give one above 0, or none.</source>
        <translation>Die Standardabweichung eines Stützpunkts ist {sigma} m. Eine größer als 0 angeben, oder keine.</translation>
    </message>
    <message>
        <source>The one-sigma of {count} heights is no number that is 0 or more. Give one for each point.</source>
        <translation>Die Standardabweichung von {count} Höhen ist keine Zahl, die 0 oder mehr ist. Für jeden Punkt eine angeben.</translation>
    </message>
    <message>
        <source>The outline crosses itself at ({x:.3f}, {y:.3f}), where its side {i} meets its side {j}.</source>
        <translation>Der Umriss kreuzt sich selbst bei ({x:.3f}, {y:.3f}), wo seine Seite {i} auf seine Seite {j} trifft.</translation>
    </message>
    <message>
        <source>The outline goes out to ({x:.3f}, {y:.3f}) and back the same way.</source>
        <translation>Der Umriss geht nach ({x:.3f}, {y:.3f}) hinaus und denselben Weg zurück.</translation>
    </message>
    <message>
        <source>The outline goes round the ground at ({x:.3f}, {y:.3f}) more than once.</source>
        <translation>Der Umriss umläuft den Boden bei ({x:.3f}, {y:.3f}) mehr als einmal.</translation>
    </message>
    <message>
        <source>The outline has loops that go round in opposite senses, one at ({x:.3f}, {y:.3f}): they would be netted off.</source>
        <translation>Der Umriss hat Schleifen mit entgegengesetztem Umlauf, eine bei ({x:.3f}, {y:.3f}): sie würden gegeneinander aufgerechnet.</translation>
    </message>
    <message>
        <source>The outline has no heights, so it stands in no plane of its own. Give it heights, or measure areas.</source>
        <translation>Der Umriss hat keine Höhen und steht daher in keiner eigenen Ebene. Ihm Höhen geben oder Flächen messen.</translation>
    </message>
    <message>
        <source>The outline has no heights. Give its points some, or choose a surface.</source>
        <translation>Der Umriss hat keine Höhen. Seinen Punkten welche geben oder eine Oberfläche wählen.</translation>
    </message>
    <message>
        <source>The outline lies off any plane by {off:.3f} m, more than {tolerance:g} m. Draw its two edges instead, or split it.</source>
        <translation>Der Umriss liegt um {off:.3f} m neben jeder Ebene, mehr als {tolerance:g} m. Stattdessen seine zwei Kanten zeichnen oder ihn teilen.</translation>
    </message>
    <message>
        <source>The outline lies on one line in space. Draw it round the face.</source>
        <translation>Der Umriss liegt im Raum auf einer Geraden. Ihn um die Ansichtsfläche zeichnen.</translation>
    </message>
    <message>
        <source>The outline would take {count} bands of {width} m, more than {most}. Give a larger width.</source>
        <translation>Der Umriss würde {count} Bahnen von {width} m brauchen, mehr als {most}. Eine größere Breite angeben.</translation>
    </message>
    <message>
        <source>The pace is {speed} m/s with {hold} s at each stand. Give a speed above 0, and seconds that are 0 or more.</source>
        <translation>Das Tempo ist {speed} m/s mit {hold} s an jedem Stand. Eine Geschwindigkeit größer als 0 angeben und Sekunden, die 0 oder mehr sind.</translation>
    </message>
    <message>
        <source>The part at ({x:.3f}, {y:.3f}) lies inside another part, so that its ground would count twice.</source>
        <translation>Der Teil bei ({x:.3f}, {y:.3f}) liegt in einem anderen Teil; sein Boden würde zweimal zählen.</translation>
    </message>
    <message>
        <source>The part at ({x:.3f}, {y:.3f}) lies over another part, so that their common ground would count twice.</source>
        <translation>Der Teil bei ({x:.3f}, {y:.3f}) liegt über einem anderen Teil; ihr gemeinsamer Boden würde zweimal zählen.</translation>
    </message>
    <message>
        <source>The parts come to ±{sum}, not to the ±{stored} that is stored (one sigma): was the row changed after the survey was made?</source>
        <translation>Die Teile ergeben ±{sum}, nicht die gespeicherten ±{stored} (eine Standardabweichung): wurde die Zeile geändert, nachdem das Aufmaß entstanden war?</translation>
    </message>
    <message>
        <source>The picture of {taken} is {days} days older than the survey.</source>
        <translation>Das Bild vom {taken} ist {days} Tage älter als das Aufmaß.</translation>
    </message>
    <message>
        <source>The picture-date &quot;{cell}&quot; is no date, so nobody can see whether the picture is too old.</source>
        <translation>Das picture-date „{cell}“ ist kein Datum; niemand kann sehen, ob das Bild zu alt ist.</translation>
    </message>
    <message>
        <source>The places lie outside of what the surface&apos;s CRS can hold.</source>
        <translation>Die Stellen liegen außerhalb dessen, was das KBS der Oberfläche fassen kann.</translation>
    </message>
    <message>
        <source>The plan area of strips of even width along the lines of any layer, or round the outer edge of its areas: mowing strips, margins, edgings, verges; true to the ground, with its uncertainty.

A strip lies to one side of its edge, half to each, or its width to either. Arcs keep their centre and corners are mitred, so that the area is exact: the width by the length of the strip&apos;s middle. left_m and right_m are the lengths of its edges along a line. Where a strip runs over itself, or round an area into a hole or another part, finding says that this ground counts twice or too; an edge without room for it is refused.

Have buried services located before breaking ground. Not a boundary or legal survey.</source>
        <translation>Die Fläche in der Lage von Streifen gleicher Breite entlang der Linien eines beliebigen Layers oder rings um den äußeren Rand seiner Flächen: Mähkanten, Randstreifen, Einfassungen, Bankette; wahr am Boden, mit ihrer Unsicherheit.

Ein Streifen liegt auf einer Seite seiner Kante, je zur Hälfte auf beiden, oder mit seiner Breite nach beiden Seiten. Bögen behalten ihren Mittelpunkt, und Ecken gehen auf Gehrung; die Fläche ist daher exakt: die Breite mal der Länge der Streifenmitte. left_m und right_m sind die Längen seiner Ränder entlang einer Linie. Wo ein Streifen über sich selbst läuft, oder um eine Fläche herum in eine Aussparung oder einen anderen Teil, sagt finding, dass dieser Boden zweimal zählt oder mitzählt; eine Kante ohne Platz dafür wird abgewiesen.

Vor dem Graben Leitungen im Boden orten lassen. Keine Grenz- oder amtliche Vermessung.</translation>
    </message>
    <message>
        <source>The plan has {count} stations, and {most} are the most. Choose the lines that will be walked, with a vertex at each station only.</source>
        <translation>Der Plan hat {count} Standpunkte, höchstens sind es {most}. Die Linien wählen, die begangen werden, mit einem Stützpunkt nur an jedem Standpunkt.</translation>
    </message>
    <message>
        <source>The plan reaches {reach:.0f} m from its middle, and {most:.0f} m are the most. Choose the walks of one site, and check the CRS.</source>
        <translation>Der Plan reicht {reach:.0f} m von seiner Mitte, höchstens sind es {most:.0f} m. Die Begehungen eines Geländes wählen und das KBS prüfen.</translation>
    </message>
    <message>
        <source>The plan was changed since: forecast again.</source>
        <translation>Der Plan wurde seither geändert: neu vorhersagen.</translation>
    </message>
    <message>
        <source>The plane nearest in height to {n} places (least squares) rises {p} a metre east and {q} a metre north.</source>
        <translation>Die Ebene, die den Höhen von {n} Orten am nächsten kommt (kleinste Quadrate), steigt {p} je Meter nach Osten und {q} je Meter nach Norden.</translation>
    </message>
    <message>
        <source>The plane nearest to the heights of the stations below.</source>
        <translation>Die Ebene, die den Höhen der Standpunkte unten am nächsten kommt.</translation>
    </message>
    <message>
        <source>The planned lines lie outside what their CRS can hold. Check the layer&apos;s CRS.</source>
        <translation>Die geplanten Linien liegen außerhalb dessen, was ihr KBS fassen kann. Das KBS des Layers prüfen.</translation>
    </message>
    <message>
        <source>The plugin&apos;s zip brings it: install the plugin again from the zip and start QGIS again.</source>
        <translation>Das ZIP des Plugins bringt sie mit: das Plugin aus dem ZIP neu installieren und QGIS neu starten.</translation>
    </message>
    <message>
        <source>The points lie in one line, so that they tell no fall across it. Give one beside it.</source>
        <translation>Die Punkte liegen auf einer Geraden und geben kein Gefälle quer dazu. Einen daneben angeben.</translation>
    </message>
    <message>
        <source>The points lie on one line (bearing {bearing:.2f} degrees) within 0.5 mm. Give a point off it.</source>
        <translation>Die Punkte liegen innerhalb von 0,5 mm auf einer Geraden (Richtung {bearing:.2f} Grad). Einen Punkt abseits davon angeben.</translation>
    </message>
    <message>
        <source>The points of the plane and the surface do not lie in one frame: only one of them has a place on the map. Choose layers that are all placed, or all in one local grid.</source>
        <translation>Die Punkte der Ebene und die Oberfläche liegen nicht in einem Rahmen: nur eines von beiden hat einen Ort auf der Karte. Layer wählen, die alle eingepasst sind oder alle in einem örtlichen Gitter liegen.</translation>
    </message>
    <message>
        <source>The radius is {times} stem diameters, {cap} m at most. Give a factor above 0.</source>
        <translation>Der Radius ist das {times}-Fache des Stammdurchmessers, höchstens {cap} m. Einen Faktor größer als 0 angeben.</translation>
    </message>
    <message>
        <source>The rest goes away.</source>
        <translation>Der Rest wird abgefahren.</translation>
    </message>
    <message>
        <source>The ring {ring} has fewer than three points with a place. Draw it round the ground that it bounds.</source>
        <translation>Der Ring {ring} hat weniger als drei Punkte mit einem Ort. Ihn um den Boden zeichnen, den er begrenzt.</translation>
    </message>
    <message>
        <source>The root protection circle of each tree of a layer of points: 12 times the stem&apos;s diameter at 1.5 m (in the US 1.37 m), 15 m at most; several stems count as one of the same section, more than five by their mean. True to the ground, as true circles, with area, fence length and their one-sigma.

With a layer of works (dig, fill, paving) every tree tells how much of its circle they take, which is asked about (TR-01), and Overlaps with works has a row for each tree and each outline of works with the area. What two outlines cover counts twice.

The rule is that of BS 5837:2012 from memory; factor and cap are yours to set. Trees follow local codes and a licensed practitioner&apos;s judgement: a circle says nothing of where the roots are. Have buried services located before breaking ground.</source>
        <translation>Der Wurzelschutzkreis jedes Baums eines Punktlayers: das 12-Fache des Stammdurchmessers in 1,5 m Höhe (in den USA 1,37 m), höchstens 15 m; mehrere Stämme zählen als einer mit demselben Querschnitt, mehr als fünf nach ihrem Mittel. Wahr am Boden, als wahre Kreise, mit Fläche, Zaunlänge und deren Standardabweichung.

Mit einem Layer von Arbeiten (Abgrabung, Auffüllung, Belag) sagt jeder Baum, wie viel seines Kreises sie einnehmen; danach wird gefragt (TR-01), und „Überschneidungen mit Arbeiten“ hat für jeden Baum und jeden Umriss der Arbeiten eine Zeile mit der Fläche. Was zwei Umrisse bedecken, zählt zweimal.

Die Regel ist die von BS 5837:2012 aus dem Gedächtnis; Faktor und Obergrenze lassen sich setzen. Bäume folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute: ein Kreis sagt nichts darüber, wo die Wurzeln sind. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>The row has no line or outline that can be read. Draw it again.</source>
        <translation>Die Zeile hat keine lesbare Linie und keinen lesbaren Umriss. Neu zeichnen.</translation>
    </message>
    <message>
        <source>The row has no spacing above 0. Give the distance from plant to plant.</source>
        <translation>Die Reihe hat keinen Abstand größer als 0. Den Abstand von Pflanze zu Pflanze angeben.</translation>
    </message>
    <message>
        <source>The row has {count} lines. Split it into rows of one part each.</source>
        <translation>Die Zeile hat {count} Linien. Sie in Zeilen mit je einem Teil aufteilen.</translation>
    </message>
    <message>
        <source>The row is no single point. Give each tree one.</source>
        <translation>Die Zeile ist kein einzelner Punkt. Jedem Baum einen geben.</translation>
    </message>
    <message>
        <source>The row lies where the layer&apos;s CRS has no place. Check the layer&apos;s CRS.</source>
        <translation>Die Zeile liegt, wo das KBS des Layers keinen Ort hat. Das KBS des Layers prüfen.</translation>
    </message>
    <message>
        <source>The row {instrument} of the instruments file gives neither leg noise nor stand noise: walk {walk} would be certain beyond what any instrument is.</source>
        <translation>Die Zeile {instrument} der Gerätedatei gibt weder Strecken- noch Standrauschen an: Begehung {walk} wäre genauer, als irgendein Gerät ist.</translation>
    </message>
    <message>
        <source>The row&apos;s heights are the survey&apos;s times {unit:.8g}: its layer&apos;s CRS counts heights in another unit than they are in. Choose the survey&apos;s own layer, or bring the heights into the unit of the CRS.</source>
        <translation>Die Höhen der Zeile sind die des Aufmaßes mal {unit:.8g}: das KBS ihres Layers zählt Höhen in einer anderen Einheit als der, in der sie sind. Den Layer des Aufmaßes selbst wählen oder die Höhen in die Einheit des KBS bringen.</translation>
    </message>
    <message>
        <source>The rows cannot be written: {reason}. Choose another format or place for the output; a GeoPackage (.gpkg) takes all.</source>
        <translation>Die Zeilen können nicht geschrieben werden: {reason}. Für die Ausgabe ein anderes Format oder einen anderen Ort wählen; ein GeoPackage (.gpkg) nimmt alle.</translation>
    </message>
    <message>
        <source>The run was stopped.</source>
        <translation>Der Lauf wurde angehalten.</translation>
    </message>
    <message>
        <source>The same for heights.</source>
        <translation>Dasselbe für Höhen.</translation>
    </message>
    <message>
        <source>The section at chainage {chainage:.3f} m has an area of {area:g} m2. Areas of cut and of fill are 0 or more, and are never netted.</source>
        <translation>Der Schnitt bei Stationierung {chainage:.3f} m hat eine Fläche von {area:g} m2. Flächen von Abtrag und Auftrag sind 0 oder mehr und werden nie gegeneinander aufgerechnet.</translation>
    </message>
    <message>
        <source>The setting {key} is &quot;{value}&quot;, which cannot be used; {default} is taken. Set it in Settings, Options, Ground Tally.</source>
        <translation>Die Einstellung {key} ist „{value}“ und nicht verwendbar; genommen wird {default}. Unter Einstellungen, Optionen, Ground Tally setzen.</translation>
    </message>
    <message>
        <source>The sides lean by {batter} m per metre. Give 0 (upright) or more.</source>
        <translation>Die Seiten neigen sich um {batter} m je Meter. 0 (senkrecht) oder mehr angeben.</translation>
    </message>
    <message>
        <source>The sigmas of this job are too far apart to be reckoned with (the largest is {largest:.3g} m). Check the instruments, the sd columns and the lengths of the walks.</source>
        <translation>Die Standardabweichungen dieser Arbeit liegen zu weit auseinander, um damit zu rechnen (die größte ist {largest:.3g} m). Geräte, sd-Spalten und Länge der Begehungen prüfen.</translation>
    </message>
    <message>
        <source>The size and what it may be off by in 95 of 100 walks; and how far its farthest-off corner may lie off on the map.</source>
        <translation>Die Größe und um wie viel sie in 95 von 100 Begehungen abweichen kann; und wie weit ihre am weitesten abliegende Ecke auf der Karte daneben liegen kann.</translation>
    </message>
    <message>
        <source>The sizes along the line were noted from its other end: the line was turned round since. Give width and depth, or take the survey&apos;s own row.</source>
        <translation>Die Größen entlang der Linie wurden von ihrem anderen Ende aus notiert: die Linie wurde seither umgedreht. Breite und Tiefe angeben oder die Zeile des Aufmaßes selbst nehmen.</translation>
    </message>
    <message>
        <source>The sizes along the line were noted on one of {noted:.3f} m, and this one is {length:.3f} m long. Give width and depth, or take the survey&apos;s own row.</source>
        <translation>Die Größen entlang der Linie wurden an einer von {noted:.3f} m notiert, und diese ist {length:.3f} m lang. Breite und Tiefe angeben oder die Zeile des Aufmaßes selbst nehmen.</translation>
    </message>
    <message>
        <source>The slab has an underside but no heights on top. Give its corners heights, or a thickness.</source>
        <translation>Die Platte hat eine Unterseite, aber oben keine Höhen. Ihren Ecken Höhen geben, oder eine Dicke.</translation>
    </message>
    <message>
        <source>The slab has no thickness above 0. Give one, or the level of its underside.</source>
        <translation>Die Platte hat keine Dicke größer als 0. Eine angeben, oder die Höhe ihrer Unterseite.</translation>
    </message>
    <message>
        <source>The slab&apos;s corners lie on one line, so they tell no top. Give a thickness.</source>
        <translation>Die Ecken der Platte liegen auf einer Geraden und geben keine Oberseite. Eine Dicke angeben.</translation>
    </message>
    <message>
        <source>The slopes of single triangles are worth {blur:.1f} % and the narrowest band is {band:.1f} % wide: noise makes ground steeper than it is. Take wider bands, or fewer and better levels.</source>
        <translation>Die Neigungen einzelner Dreiecke sind {blur:.1f} % wert, und die schmalste Neigungsklasse ist {band:.1f} % breit: Rauschen macht Boden steiler, als er ist. Breitere Neigungsklassen oder weniger und bessere Höhen nehmen.</translation>
    </message>
    <message>
        <source>The spacing is the median distance from a point to the next.</source>
        <translation>Der Punktabstand ist der mittlere (Median) Abstand eines Punkts zum nächsten.</translation>
    </message>
    <message>
        <source>The station next to mark {mark} is nearer to another mark. Draw a station on each, or move one.</source>
        <translation>Der Standpunkt beim Festpunkt {mark} liegt näher an einem anderen Festpunkt. Auf jeden einen Standpunkt zeichnen oder einen verschieben.</translation>
    </message>
    <message>
        <source>The stems &quot;{text}&quot; are no numbers. Write diameters in metres with + between, such as 0.12+0.15.</source>
        <translation>Die Stämme „{text}“ sind keine Zahlen. Durchmesser in Metern mit + dazwischen schreiben, etwa 0.12+0.15.</translation>
    </message>
    <message>
        <source>The step of the depths is {step} m. Give a number above 0.</source>
        <translation>Der Schritt der Tiefen ist {step} m. Eine Zahl größer als 0 angeben.</translation>
    </message>
    <message>
        <source>The steps go up and down: after {at} stations a riser goes down. Split the line at the top.</source>
        <translation>Die Treppe geht auf und ab: nach {at} Standpunkten geht eine Setzstufe abwärts. Die Linie oben teilen.</translation>
    </message>
    <message>
        <source>The steps have no heights. Give each nosing and each foot of a riser one.</source>
        <translation>Die Treppe hat keine Höhen. Jeder Trittkante und jedem Fuß einer Setzstufe eine geben.</translation>
    </message>
    <message>
        <source>The strip is {strip} m deep. Give a depth that is 0 or more.</source>
        <translation>Der Oberbodenabtrag ist {strip} m tief. Eine Tiefe angeben, die 0 oder mehr ist.</translation>
    </message>
    <message>
        <source>The strip is {width:g} m wide. Give a width above 0.</source>
        <translation>Der Streifen ist {width:g} m breit. Eine Breite größer als 0 angeben.</translation>
    </message>
    <message>
        <source>The strip reaches into a hole or another part of the area: that ground counts too.</source>
        <translation>Der Streifen reicht in eine Aussparung oder einen anderen Teil der Fläche: dieser Boden zählt mit.</translation>
    </message>
    <message>
        <source>The strip runs over itself: ground there counts twice.</source>
        <translation>Der Streifen läuft über sich selbst: dort zählt Boden zweimal.</translation>
    </message>
    <message>
        <source>The surface and the layer do not lie in one frame: only one of them has a place on the map. Choose layers that are both placed, or both in one local grid.</source>
        <translation>Die Oberfläche und der Layer liegen nicht in einem Rahmen: nur eines von beiden hat einen Ort auf der Karte. Layer wählen, die beide eingepasst sind oder beide in einem örtlichen Gitter liegen.</translation>
    </message>
    <message>
        <source>The surface does not reach x {x:.3f}, y {y:.3f} of the survey plane. Choose a place on it.</source>
        <translation>Die Oberfläche reicht nicht bis x {x:.3f}, y {y:.3f} der Aufmaßebene. Eine Stelle auf ihr wählen.</translation>
    </message>
    <message>
        <source>The surface has no triangles, so that no water stands on it. Build it.</source>
        <translation>Die Oberfläche hat keine Dreiecke; auf ihr steht kein Wasser. Sie bilden.</translation>
    </message>
    <message>
        <source>The surface leaves out {left:.2f} m2 of {whole:.2f} m2 of the slab. Extend it, or cut the slab to it.</source>
        <translation>Die Oberfläche lässt {left:.2f} m2 von {whole:.2f} m2 der Platte aus. Sie ausdehnen oder die Platte darauf zuschneiden.</translation>
    </message>
    <message>
        <source>The surface leaves out {missing:.2f} m of the line, from {at:.2f} m along it. Extend the surface, or cut the line to it.</source>
        <translation>Die Oberfläche lässt {missing:.2f} m der Linie aus, ab {at:.2f} m ihrer Länge. Die Oberfläche weiter ausdehnen oder die Linie darauf zuschneiden.</translation>
    </message>
    <message>
        <source>The surface lies over itself near x {x:.3f}, y {y:.3f} of the survey plane, so that it has two levels there. Build it again from its points, or cut its layers one by one.</source>
        <translation>Die Oberfläche liegt nahe x {x:.3f}, y {y:.3f} der Aufmaßebene über sich selbst und hat dort zwei Höhen. Sie aus ihren Punkten neu bilden oder ihre Layer einzeln schneiden.</translation>
    </message>
    <message>
        <source>The surface {name} has a corner without a place or a height. Give every corner all three coordinates.</source>
        <translation>Die Oberfläche {name} hat eine Ecke ohne Ort oder Höhe. Jeder Ecke alle drei Koordinaten geben.</translation>
    </message>
    <message>
        <source>The surface {name} has two heights at one place, {low:.3f} m and {high:.3f} m at {east:.3f}, {north:.3f} in the survey plane. Take out upright faces, or draw their foot a little off their top.</source>
        <translation>Die Oberfläche {name} hat an einer Stelle zwei Höhen, {low:.3f} m und {high:.3f} m bei {east:.3f}, {north:.3f} in der Aufmaßebene. Senkrechte Flächen entfernen oder ihren Fuß ein wenig neben ihre Krone zeichnen.</translation>
    </message>
    <message>
        <source>The surfaces and the layer {layer} do not lie in one frame: only one of them has a place on the map. Choose layers that are all placed, or all in one local grid.</source>
        <translation>Die Oberflächen und der Layer {layer} liegen nicht in einem Rahmen: nur eines von beiden hat einen Ort auf der Karte. Layer wählen, die alle eingepasst sind oder alle in einem örtlichen Gitter liegen.</translation>
    </message>
    <message>
        <source>The survey does not say what this row&apos;s heights are worth. Walk it with heights.</source>
        <translation>Das Aufmaß sagt nicht, was die Höhen dieser Zeile wert sind. Sie mit Höhen begehen.</translation>
    </message>
    <message>
        <source>The survey is not placed on a map: {count} of its marks have a map point, and two are needed. It is in a plane of its own; sizes are right all the same.</source>
        <translation>Das Aufmaß ist nicht in eine Karte eingepasst: {count} seiner Festpunkte haben einen Passpunkt, und zwei sind nötig. Es liegt in einer eigenen Ebene; die Maße stimmen trotzdem.</translation>
    </message>
    <message>
        <source>The survey is placed on two pairs only, with no check point: exchanged pairs (a half-turn) would fit just as well.</source>
        <translation>Das Aufmaß ist nur mit zwei Paaren eingepasst, ohne Kontrollpunkt: getauschte Paare (eine halbe Drehung) würden ebenso gut passen.</translation>
    </message>
    <message>
        <source>The survey is placed, but {points} would agree as well with {one} and {other} exchanged: they cannot tell the two apart.</source>
        <translation>Das Aufmaß ist eingepasst, aber {points} würde ebenso gut passen, wenn {one} und {other} getauscht wären: beides lässt sich nicht unterscheiden.</translation>
    </message>
    <message>
        <source>The survey kept this figure out ({codes}).</source>
        <translation>Das Aufmaß hat dieses Maß zurückgehalten ({codes}).</translation>
    </message>
    <message>
        <source>The survey kept this row&apos;s figures out ({codes}). Answer its findings in the decisions file and run the survey again.</source>
        <translation>Das Aufmaß hat die Maße dieser Zeile zurückgehalten ({codes}). Ihre Befunde in der Entscheidungsdatei beantworten und das Aufmaß neu rechnen.</translation>
    </message>
    <message>
        <source>The survey plane is taken at height 0 (none is known): each 100 m above makes true lengths 1.6e-5 longer.</source>
        <translation>Die Aufmaßebene liegt bei Höhe 0 (es ist keine bekannt): je 100 m darüber werden wahre Längen um 1.6e-5 länger.</translation>
    </message>
    <message>
        <source>The survey plane is taken at {height:.1f} m: the control&apos;s height in its own datum, taken for one above the ellipsoid (no `# separation:` is given; 50 m would change the map&apos;s lengths by 8e-6, the measured sizes not at all).</source>
        <translation>Die Aufmaßebene liegt bei {height:.1f} m: die Höhe der Passpunkte in ihrem eigenen Bezugssystem, genommen als Höhe über dem Ellipsoid (kein `# separation:` angegeben; 50 m würden die Längen der Karte um 8e-6 ändern, die gemessenen Maße gar nicht).</translation>
    </message>
    <message>
        <source>The survey was run again after these checks.</source>
        <translation>Das Aufmaß wurde nach diesen Prüfungen neu gerechnet.</translation>
    </message>
    <message>
        <source>The survey&apos;s heights were moved by {shift:.3f} m onto their datum, the inverts stand as they were noted: make sure that they are levels in that datum, or give the inverts.</source>
        <translation>Die Höhen des Aufmaßes wurden um {shift:.3f} m auf ihr Höhenbezugssystem verschoben, die Sohlhöhen stehen, wie sie notiert wurden: sicherstellen, dass sie Höhen in diesem Bezugssystem sind, oder die Sohlhöhen angeben.</translation>
    </message>
    <message>
        <source>The survey&apos;s own figure and uncertainty; the survey&apos;s layer tells what they are made of.</source>
        <translation>Maß und Unsicherheit des Aufmaßes selbst; der Layer des Aufmaßes sagt, woraus sie bestehen.</translation>
    </message>
    <message>
        <source>The table of limits was changed after these checks.</source>
        <translation>Die Tabelle der Grenzwerte wurde nach diesen Prüfungen geändert.</translation>
    </message>
    <message>
        <source>The tape from {start} to {end} is not used: no walk stands on {missing}.</source>
        <translation>Das Bandmaß von {start} bis {end} wird nicht verwendet: keine Begehung steht auf {missing}.</translation>
    </message>
    <message>
        <source>The tape from {start} to {end} is not used: no walk stands on {missing}. Is it {like}?</source>
        <translation>Das Bandmaß von {start} bis {end} wird nicht verwendet: keine Begehung steht auf {missing}. Ist {like} gemeint?</translation>
    </message>
    <message>
        <source>The tape from {start} to {end} lies along the slope, but the height of {blind} is not known: it is left out.</source>
        <translation>Das Bandmaß von {start} bis {end} liegt in der Neigung, aber die Höhe von {blind} ist nicht bekannt: es wird weggelassen.</translation>
    </message>
    <message>
        <source>The three points of an arc lie on no circle. Move its middle between its ends.</source>
        <translation>Die drei Punkte eines Bogens liegen auf keinem Kreis. Seine Mitte zwischen seine Enden verschieben.</translation>
    </message>
    <message>
        <source>The three points of the plane lie in one line in plan. Move one of them off it.</source>
        <translation>Die drei Punkte der Ebene liegen in der Lage auf einer Geraden. Einen davon wegverschieben.</translation>
    </message>
    <message>
        <source>The times of walk {walk} leave no moving time to {count} of its stations ({station} is the first) once the hold is taken off; their legs are judged by their length at walking speed.</source>
        <translation>Die Zeiten der Begehung {walk} lassen {count} ihrer Standpunkte (zuerst {station}) keine Gehzeit, wenn das Halten abgezogen ist; ihre Strecken werden nach ihrer Länge bei Schrittgeschwindigkeit beurteilt.</translation>
    </message>
    <message>
        <source>The tolerance of a fit is {tolerance} m. Give one above 0.</source>
        <translation>Die Toleranz einer Einpassung ist {tolerance} m. Eine über 0 angeben.</translation>
    </message>
    <message>
        <source>The top lies {under:.3f} m below the foot at {at:.2f} m along it. Exchange the two parts, or correct heights.</source>
        <translation>Die Krone liegt bei {at:.2f} m ihrer Länge {under:.3f} m unter dem Fuß. Die beiden Teile tauschen oder Höhen berichtigen.</translation>
    </message>
    <message>
        <source>The tree has no stem diameter above 0. Give it in metres, of several stems with + between.</source>
        <translation>Der Baum hat keinen Stammdurchmesser größer als 0. Ihn in Metern angeben, bei mehreren Stämmen mit + dazwischen.</translation>
    </message>
    <message>
        <source>The tree has {count:g} stems. Give a whole number from 1 to 1000.</source>
        <translation>Der Baum hat {count:g} Stämme. Eine ganze Zahl von 1 bis 1000 angeben.</translation>
    </message>
    <message>
        <source>The trench has inverts and no ground: neither a surface nor heights of its line. Give one of them.</source>
        <translation>Der Graben hat Sohlhöhen und keinen Boden: weder eine Oberfläche noch Höhen seiner Linie. Eines davon angeben.</translation>
    </message>
    <message>
        <source>The trench has no depth anywhere along its line. Note it, or give its depth or inverts.</source>
        <translation>Der Graben hat nirgends entlang seiner Linie eine Tiefe. Sie notieren oder seine Tiefe oder seine Sohlhöhen angeben.</translation>
    </message>
    <message>
        <source>The trench has no depth: neither a size nor levels of its invert. Note one, or give the parameter.</source>
        <translation>Der Graben hat keine Tiefe: weder eine Größe noch Höhen seiner Sohle. Eine notieren oder den Parameter angeben.</translation>
    </message>
    <message>
        <source>The trench runs over itself: ground there counts twice.</source>
        <translation>Der Graben läuft über sich selbst: dort zählt Boden zweimal.</translation>
    </message>
    <message>
        <source>The triangles do not fit together near {east:.3f}, {north:.3f} in the survey plane. Merge points within a larger distance, or leave out what lies too close there.</source>
        <translation>Die Dreiecke passen nahe {east:.3f}, {north:.3f} in der Aufmaßebene nicht zusammen. Punkte in einem größeren Abstand zusammenlegen oder weglassen, was dort zu nah liegt.</translation>
    </message>
    <message>
        <source>The two hold {count} surfaces: {names}. Give two of one surface each; filter a layer to the one that is meant.</source>
        <translation>Die beiden enthalten {count} Oberflächen: {names}. Zwei mit je einer Oberfläche angeben; einen Layer auf die gemeinte filtern.</translation>
    </message>
    <message>
        <source>The two surfaces share no ground. Choose two of one place, in one datum.</source>
        <translation>Die beiden Oberflächen haben keinen Boden gemeinsam. Zwei von einem Ort in einem Höhenbezugssystem wählen.</translation>
    </message>
    <message>
        <source>The underside lies {over:.3f} m above the slab&apos;s top at its lowest corner. Correct the level or the heights.</source>
        <translation>Die Unterseite liegt an der tiefsten Ecke {over:.3f} m über der Oberseite der Platte. Die Höhe der Unterseite oder die Höhen berichtigen.</translation>
    </message>
    <message>
        <source>The unit &quot;{unit}&quot; is not known. Use one of: {units}.</source>
        <translation>Die Einheit „{unit}“ ist unbekannt. Eine verwenden von: {units}.</translation>
    </message>
    <message>
        <source>The values are written as angles.</source>
        <translation>Die Werte sind als Winkel geschrieben.</translation>
    </message>
    <message>
        <source>The walks close, but no length was taped: a closed loop cannot show the instrument&apos;s scale.</source>
        <translation>Die Begehungen schließen, aber keine Länge wurde mit dem Band gemessen: eine geschlossene Schleife zeigt den Maßstab des Geräts nicht.</translation>
    </message>
    <message>
        <source>The walks could not be brought together: places still move by {move:.1e} m in the last round. Check the mark names, units and axes of the logs.</source>
        <translation>Die Begehungen ließen sich nicht zusammenführen: in der letzten Runde bewegen sich Punkte noch um {move:.1e} m. Namen der Festpunkte, Einheiten und Achsen der Protokolle prüfen.</translation>
    </message>
    <message>
        <source>The walks could not be brought together: places still move by {move:.1e} m in the last round. Look first at this, {code} at {place}: {message} {remedy}</source>
        <translation>Die Begehungen ließen sich nicht zusammenführen: in der letzten Runde bewegen sich Punkte noch um {move:.1e} m. Zuerst hier nachsehen, {code} bei {place}: {message} {remedy}</translation>
    </message>
    <message>
        <source>The walks have no marks, so there is nothing to pair.</source>
        <translation>Die Begehungen haben keine Festpunkte; es gibt nichts zu paaren.</translation>
    </message>
    <message>
        <source>The walks {one} and {two} have different key lines. Write them to logs of their own.</source>
        <translation>Die Begehungen {one} und {two} haben verschiedene Schlüsselzeilen. In eigene Protokolle schreiben.</translation>
    </message>
    <message>
        <source>The wall has a top only. Walk its foot, or give a height.</source>
        <translation>Die Mauer hat nur eine Krone. Ihren Fuß begehen oder eine Höhe angeben.</translation>
    </message>
    <message>
        <source>The wall has no height: neither a top over its foot nor a size. Walk the other line, or give a height.</source>
        <translation>Die Mauer hat keine Höhe: weder eine Krone über ihrem Fuß noch ein Maß. Die andere Linie begehen oder eine Höhe angeben.</translation>
    </message>
    <message>
        <source>The wall has no second edge. Walk its foot and its top, as parts foot and top of one feature.</source>
        <translation>Die Mauer hat keine zweite Kante. Ihren Fuß und ihre Krone als Teile foot und top eines Objekts begehen.</translation>
    </message>
    <message>
        <source>The wall is {t} m thick. Give 0 or more.</source>
        <translation>Die Mauer ist {t} m dick. 0 oder mehr angeben.</translation>
    </message>
    <message>
        <source>The wall&apos;s line has no length. Draw it along the wall.</source>
        <translation>Die Linie der Mauer hat keine Länge. Sie entlang der Mauer zeichnen.</translation>
    </message>
    <message>
        <source>The whole working as plain text, to be pasted into a letter.</source>
        <translation>Der ganze Rechenweg als reiner Text, zum Einfügen in einen Brief.</translation>
    </message>
    <message>
        <source>The width is {width:g} m somewhere along the line, which is no section. Note it, or give one above 0.</source>
        <translation>Die Breite ist irgendwo entlang der Linie {width:g} m, was kein Querschnitt ist. Sie notieren oder eine größer als 0 angeben.</translation>
    </message>
    <message>
        <source>The width to either side</source>
        <translation>Die Breite nach beiden Seiten</translation>
    </message>
    <message>
        <source>The work stopped.</source>
        <translation>Die Arbeit wurde angehalten.</translation>
    </message>
    <message>
        <source>The worst; {count} more are smaller</source>
        <translation>Die schlechtesten; {count} weitere sind kleiner</translation>
    </message>
    <message>
        <source>The zero line needs the library {library}, which is not there. Install it, or leave the line out.</source>
        <translation>Die Nulllinie braucht die Bibliothek {library}, die nicht da ist. Sie installieren oder die Linie weglassen.</translation>
    </message>
    <message>
        <source>The {size} of {feature} is noted from {least:.3f} to {most:.3f} m. Its row has none; each station&apos;s own stands in the table stations.</source>
        <translation>Die Größe {size} von {feature} ist mit {least:.3f} bis {most:.3f} m notiert. Ihre Zeile hat keine; die jedes Standpunkts steht in der Tabelle stations.</translation>
    </message>
    <message>
        <source>The {size} of {feature} is noted from {least:.3f} to {most:.3f} m. Its row has none; what was noted along it stands in its column sizes_along, and by station in the table stations.</source>
        <translation>Die Größe {size} von {feature} ist mit {least:.3f} bis {most:.3f} m notiert. Ihre Zeile hat keine; was unterwegs notiert wurde, steht in der Spalte sizes_along, und nach Standpunkten in der Tabelle stations.</translation>
    </message>
    <message>
        <source>Their overlaps with the circles are listed.</source>
        <translation>Ihre Überschneidungen mit den Kreisen werden aufgelistet.</translation>
    </message>
    <message>
        <source>Then click an area, a length, a side, a station or a mark on the map.</source>
        <translation>Dann auf der Karte eine Fläche, eine Länge, eine Seite, einen Standpunkt oder einen Festpunkt anklicken.</translation>
    </message>
    <message>
        <source>There is no geometry.</source>
        <translation>Es gibt keine Geometrie.</translation>
    </message>
    <message>
        <source>There is no geometry. Draw it, or delete the row.</source>
        <translation>Es ist keine Geometrie da. Zeichnen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>There is no such folder.</source>
        <translation>Diesen Ordner gibt es nicht.</translation>
    </message>
    <message>
        <source>There is no walk log among the files: {files}. Add one, or a point list, GPX, NMEA 0183 or LandXML.</source>
        <translation>Unter den Dateien ist kein Begehungsprotokoll: {files}. Eines hinzufügen, oder eine Punktliste, GPX, NMEA 0183 oder LandXML.</translation>
    </message>
    <message>
        <source>There is no walk to write. Choose one.</source>
        <translation>Es gibt keine Begehung zu schreiben. Eine wählen.</translation>
    </message>
    <message>
        <source>There is nothing in this survey that limits are of.</source>
        <translation>In diesem Aufmaß ist nichts, wofür Grenzwerte gelten.</translation>
    </message>
    <message>
        <source>There is nothing to cut along. Give lines, or a baseline.</source>
        <translation>Es gibt nichts, entlang dem zu schneiden wäre. Linien angeben oder eine Achse.</translation>
    </message>
    <message>
        <source>These are examples, some from memory. Local codes and a licensed practitioner&apos;s judgement rule: tick what holds where you build, or choose a table of your own.</source>
        <translation>Das sind Beispiele, einige aus dem Gedächtnis. Es gelten die örtlichen Vorschriften und das Urteil der zugelassenen Fachleute: ankreuzen, was gilt, wo gebaut wird, oder eine eigene Tabelle wählen.</translation>
    </message>
    <message>
        <source>Thickened sides that lie near the outline and not along its outer edge within 20 mm: {count}. What lies off it thickens nothing: move it onto the edge.</source>
        <translation>Verstärkte Seiten, die nahe dem Umriss und nicht innerhalb von 20 mm entlang seinem äußeren Rand liegen: {count}. Was daneben liegt, verstärkt nichts: es auf den Rand verschieben.</translation>
    </message>
    <message>
        <source>Thickness, metres</source>
        <translation>Dicke, Meter</translation>
    </message>
    <message>
        <source>Thickness, vertical, metres</source>
        <translation>Dicke, senkrecht, Meter</translation>
    </message>
    <message>
        <source>This format holds no curves: arcs are written as chords of one degree. The figures are those of the arcs. A GeoPackage (.gpkg) keeps them.</source>
        <translation>Dieses Format kennt keine Bögen: sie werden als Sehnen von einem Grad geschrieben. Die Maße sind die der Bögen. Ein GeoPackage (.gpkg) behält sie.</translation>
    </message>
    <message>
        <source>This survey has no heights.</source>
        <translation>Dieses Aufmaß hat keine Höhen.</translation>
    </message>
    <message>
        <source>Tick a limit that holds here.</source>
        <translation>Einen Grenzwert ankreuzen, der hier gilt.</translation>
    </message>
    <message>
        <source>Tick a log.</source>
        <translation>Ein Protokoll ankreuzen.</translation>
    </message>
    <message>
        <source>Tick one file of {kind}, or all.</source>
        <translation>Eine Datei ankreuzen ({kind}), oder alle.</translation>
    </message>
    <message>
        <source>Tick one file of {kind}: what lies in the folder is read.</source>
        <translation>Eine Datei ankreuzen ({kind}): was im Ordner liegt, wird gelesen.</translation>
    </message>
    <message>
        <source>Times are those of arrival, and holds the seconds held from then on: check both columns.</source>
        <translation>Zeiten sind die der Ankunft, und hold die Sekunden, die von da an gehalten wurde: beide Spalten prüfen.</translation>
    </message>
    <message>
        <source>To a level, metres</source>
        <translation>Zu einer Höhe, Meter</translation>
    </message>
    <message>
        <source>To a plane through three points</source>
        <translation>Zu einer Ebene durch drei Punkte</translation>
    </message>
    <message>
        <source>To the next</source>
        <translation>Bis zum nächsten</translation>
    </message>
    <message>
        <source>Top or foot of the wall has no heights. Give both, or a height.</source>
        <translation>Krone oder Fuß der Mauer hat keine Höhen. Beiden welche geben, oder eine Höhe.</translation>
    </message>
    <message>
        <source>Top or foot of the wall has no length in plan. Draw it along the wall.</source>
        <translation>Krone oder Fuß der Mauer hat in der Lage keine Länge. Entlang der Mauer zeichnen.</translation>
    </message>
    <message>
        <source>Topsoil taken off all of the ground beforehand; it is never fill.</source>
        <translation>Oberboden, der vorab vom ganzen Boden abgetragen wird; er ist nie Auftrag.</translation>
    </message>
    <message>
        <source>Topsoil taken off all of the ground.</source>
        <translation>Oberboden, der vom ganzen Boden abgetragen wird.</translation>
    </message>
    <message>
        <source>Trapezoid: leaning sides</source>
        <translation>Trapez: geneigte Seiten</translation>
    </message>
    <message>
        <source>Trees</source>
        <translation>Bäume</translation>
    </message>
    <message>
        <source>Triangles</source>
        <translation>Dreiecke</translation>
    </message>
    <message>
        <source>Triangles of the surfaces that LandXML files hold, as they stand there.</source>
        <translation>Dreiecke der Oberflächen, die LandXML-Dateien enthalten, wie sie dort stehen.</translation>
    </message>
    <message>
        <source>Triangles with heights, or a mesh; without it the areas&apos; own heights count. Ramps and paths drawn as one line take their crossfall from it, and their heights where they have none.</source>
        <translation>Dreiecke mit Höhen, oder ein Netz; ohne sie zählen die eigenen Höhen der Flächen. Rampen und Wege, die als eine Linie gezeichnet sind, nehmen ihr Quergefälle daraus, und ihre Höhen, wo sie keine haben.</translation>
    </message>
    <message>
        <source>Triangles with heights, or a mesh; without it the rows&apos; own heights count.</source>
        <translation>Dreiecke mit Höhen, oder ein Netz; ohne sie zählen die eigenen Höhen der Zeilen.</translation>
    </message>
    <message>
        <source>True ground area and perimeter of each outline of any polygon layer, with their uncertainty, whatever the layer&apos;s CRS: degrees, feet and web mercator too. Arcs are exact, holes are out.

Every row of the layer comes back with its own columns and, added: area_m2 and perimeter_m (of the outer rings), in plan; sloped_area_m2 on the plane nearest to its heights, where it has any (heights that are all zero are none); every _sigma is one standard deviation; method says how it was measured, finding why an outline was refused and what each remedy would give.

What the corners are worth is not in a layer, so it is assumed: state it, or take it from a field. A survey&apos;s own areas keep the figures and the uncertainty that the survey gave them, where the outline is as the survey drew it.</source>
        <translation>Wahre Fläche am Boden und Umfang jedes Umrisses eines beliebigen Polygonlayers mit ihrer Unsicherheit, in jedem KBS: auch Grad, Fuß und Web-Mercator. Bögen sind exakt, Aussparungen abgezogen.

Jede Zeile des Layers kommt mit ihren eigenen Spalten zurück; dazu: area_m2 und perimeter_m (der äußeren Ringe) in der Lage; sloped_area_m2 in der Ebene, die ihren Höhen am nächsten kommt, wo sie welche hat (lauter Nullen sind keine); jedes _sigma ist eine Standardabweichung; method sagt, wie gemessen wurde, finding, warum ein Umriss abgewiesen wurde und was jede Abhilfe ergäbe.

Was die Ecken wert sind, steht in keinem Layer und wird daher angenommen: es angeben oder aus einem Feld nehmen. Flächen eines Aufmaßes behalten dessen Maße und Unsicherheit, wo der Umriss ist, wie das Aufmaß ihn gezeichnet hat.</translation>
    </message>
    <message>
        <source>True ground length of each line of any line layer, with its uncertainty, whatever the layer&apos;s CRS: degrees, feet and web mercator too. Arcs are exact.

Every row of the layer comes back with its own columns and, added: length_m in plan, of all parts together; where the line has heights (all zero are none) slope_length_m along the slope and, of a line of one part, rise_m of its end above its start and gradient_ratio, rise by length, positive up along the line; every _sigma is one standard deviation; method says how it was measured, finding why a line was refused.

What the points are worth is not in a layer, so it is assumed: state it, or take it from a field. A survey&apos;s own lengths keep the figures and the uncertainty that the survey gave them, where the line is as the survey drew it. Gradients of ramps and steps follow local codes and a licensed practitioner&apos;s judgement.</source>
        <translation>Wahre Länge am Boden jeder Linie eines beliebigen Linienlayers mit ihrer Unsicherheit, in jedem KBS: auch Grad, Fuß und Web-Mercator. Bögen sind exakt.

Jede Zeile des Layers kommt mit ihren eigenen Spalten zurück; dazu: length_m in der Lage, aller Teile zusammen; wo die Linie Höhen hat (lauter Nullen sind keine), slope_length_m in der Neigung und, bei einer Linie aus einem Teil, rise_m ihres Endes über ihrem Anfang und gradient_ratio, Höhe durch Länge, positiv aufwärts entlang der Linie; jedes _sigma ist eine Standardabweichung; method sagt, wie gemessen wurde, finding, warum eine Linie abgewiesen wurde.

Was die Punkte wert sind, steht in keinem Layer und wird daher angenommen: es angeben oder aus einem Feld nehmen. Längen eines Aufmaßes behalten dessen Maße und Unsicherheit, wo die Linie ist, wie das Aufmaß sie gezeichnet hat. Neigungen von Rampen und Treppen folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute.</translation>
    </message>
    <message>
        <source>Trying these pairs...</source>
        <translation>Diese Paare werden versucht...</translation>
    </message>
    <message>
        <source>Two breaklines cross near {east:.3f}, {north:.3f} in the survey plane and have no point in common there. Draw a point where they meet.</source>
        <translation>Zwei Bruchkanten kreuzen sich nahe {east:.3f}, {north:.3f} in der Aufmaßebene und haben dort keinen gemeinsamen Punkt. Einen Punkt zeichnen, wo sie sich treffen.</translation>
    </message>
    <message>
        <source>Two curves? Put a `curve-end` where they meet. Wrong passing point? Take it out. Or accept it.</source>
        <translation>Zwei Kurven? `curve-end` setzen, wo sie sich treffen. Falscher Durchgangspunkt? Entfernen. Oder annehmen.</translation>
    </message>
    <message>
        <source>Two curves? Wrong passing point? Correct the log, or accept it.</source>
        <translation>Zwei Kurven? Falscher Durchgangspunkt? Das Protokoll berichtigen oder annehmen.</translation>
    </message>
    <message>
        <source>Two holes of one area may overlap, and telling that needs the library {library}, which is not installed.</source>
        <translation>Zwei Aussparungen einer Fläche können sich überlappen; um das zu sagen, ist die Bibliothek {library} nötig, die nicht installiert ist.</translation>
    </message>
    <message>
        <source>Two levels at {place} differ by {off:.3f} m, more than three times what they are worth; their mean is taken.</source>
        <translation>Zwei Höhen bei {place} unterscheiden sich um {off:.3f} m, mehr als das Dreifache dessen, was sie wert sind; genommen wird ihr Mittel.</translation>
    </message>
    <message>
        <source>Two marks are called {mark}. Give each a name of its own.</source>
        <translation>Zwei Festpunkte heißen {mark}. Jedem einen eigenen Namen geben.</translation>
    </message>
    <message>
        <source>Two nosings stand over each other. Correct their places in plan.</source>
        <translation>Zwei Trittkanten stehen übereinander. Ihre Orte in der Lage berichtigen.</translation>
    </message>
    <message>
        <source>Two rings of the outline cross each other at ({x:.3f}, {y:.3f}).</source>
        <translation>Zwei Ringe des Umrisses kreuzen sich bei ({x:.3f}, {y:.3f}).</translation>
    </message>
    <message>
        <source>Two rows are the {part} of {feature}. Give each thing a name of its own, or join the rows.</source>
        <translation>Zwei Zeilen sind {part} von {feature}. Jedem Ding einen eigenen Namen geben oder die Zeilen verbinden.</translation>
    </message>
    <message>
        <source>Two surveys of one place, or two surfaces: what was added, is gone, moved, or changed in size or height, each tested against what both know, so that noise is called noise.

Comparison has a row for each thing: its figures before and after, the change with its sigma, p and the outcome: same, changed, cannot tell (a change of the size asked about could hide), added or gone. Every p holds for the whole pair of surveys: in an unchanged place the chance that anything at all is told as changed is the level, or less. A shift, a turn or a step in height that all places share is found first, told in the summary, and taken off. Rows of the kind patch are neighbouring heights that changed together, which are found where none of them would be by itself. Of two surfaces it has the ground as a whole, and its patches with their volumes. What changed shows it on the map.

Not a boundary or legal survey: a moved edge is evidence and no title. Have buried services located before breaking ground.</source>
        <translation>Zwei Aufmaße eines Orts, oder zwei Oberflächen: was dazukam, weg ist, verschoben ist oder sich in Größe oder Höhe geändert hat, jedes an dem geprüft, was beide wissen, damit Rauschen Rauschen heißt.

„Vergleich“ hat für jedes Ding eine Zeile: seine Maße vorher und nachher, die Änderung mit ihrer Standardabweichung, p und das Ergebnis: same, changed, cannot tell (eine Änderung der gefragten Größe könnte verborgen sein), added oder gone. Jedes p gilt für das ganze Paar von Aufmaßen: an einem unveränderten Ort ist die Wahrscheinlichkeit, dass überhaupt etwas als geändert gemeldet wird, höchstens die angegebene. Eine Verschiebung, eine Drehung oder ein Höhensprung, die alle Orte gemeinsam haben, wird zuerst gefunden, in der Zusammenfassung gemeldet und abgezogen. Zeilen der Art patch sind benachbarte Höhen, die sich gemeinsam geändert haben; sie werden gefunden, wo keine davon für sich gefunden würde. Bei zwei Oberflächen hat es den Boden als Ganzes und seine Stücke mit ihren Volumen. „Was sich geändert hat“ zeigt es auf der Karte.

Keine Grenz- oder amtliche Vermessung: eine verschobene Kante ist ein Hinweis und kein Rechtstitel. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>Two walks are called {walk}. Give each a name of its own.</source>
        <translation>Zwei Begehungen heißen {walk}. Jeder einen eigenen Namen geben.</translation>
    </message>
    <message>
        <source>US survey feet (1200/3937 m)</source>
        <translation>US-Survey-Fuß (1200/3937 m)</translation>
    </message>
    <message>
        <source>Units of single files, in place of their own</source>
        <translation>Einheiten einzelner Dateien, statt ihrer eigenen</translation>
    </message>
    <message>
        <source>Units, CRS</source>
        <translation>Einheiten, KBS</translation>
    </message>
    <message>
        <source>Used to</source>
        <translation>Dient zur</translation>
    </message>
    <message>
        <source>V-shaped: down to the middle</source>
        <translation>V-förmig: hinab zur Mitte</translation>
    </message>
    <message>
        <source>Vertex {row} of the outline has no place ({x}, {y}). Leave such vertices out.</source>
        <translation>Stützpunkt {row} des Umrisses hat keinen Ort ({x}, {y}). Solche Stützpunkte weglassen.</translation>
    </message>
    <message>
        <source>Vertex {row} of the outline is the middle of an arc, but has no end of it on both sides. Give arcs as start, middle, end.</source>
        <translation>Stützpunkt {row} des Umrisses ist die Mitte eines Bogens, hat aber nicht auf beiden Seiten ein Ende davon. Bögen als Anfang, Mitte, Ende angeben.</translation>
    </message>
    <message>
        <source>Vertices to fit are x and y, (n, 2), each with whether it is the middle of an arc, (n,); here they are {shape} and {mids}.</source>
        <translation>Einzupassende Stützpunkte sind x und y, (n, 2), und zu jedem, ob er die Mitte eines Bogens ist, (n,); hier sind sie {shape} und {mids}.</translation>
    </message>
    <message>
        <source>Voids</source>
        <translation>Aussparungen</translation>
    </message>
    <message>
        <source>Volume</source>
        <translation>Volumen</translation>
    </message>
    <message>
        <source>Volumes</source>
        <translation>Volumen</translation>
    </message>
    <message>
        <source>Volumes of {name} to {target}</source>
        <translation>Volumen von {name} gegen {target}</translation>
    </message>
    <message>
        <source>Walk</source>
        <translation>Begehung</translation>
    </message>
    <message>
        <source>Walk it again if it is a corner or a mark; accept it if it was passed on purpose.</source>
        <translation>Neu begehen, wenn es eine Ecke oder ein Festpunkt ist; annehmen, wenn absichtlich vorbeigegangen wurde.</translation>
    </message>
    <message>
        <source>Walk logs (CSV with the columns walk, station, x and y); or one folder, of which every text file counts. Control, tapes, instruments and decisions that lie in the folder are found by their content. Point lists, GPX, NMEA 0183 and LandXML are read too, told by their content.</source>
        <translation>Begehungsprotokolle (CSV mit den Spalten walk, station, x und y); oder ein Ordner, von dem jede Textdatei zählt. Passpunkte, Bandmaße, Geräte und Entscheidungen, die im Ordner liegen, werden an ihrem Inhalt erkannt. Auch Punktlisten, GPX, NMEA 0183 und LandXML werden gelesen und an ihrem Inhalt erkannt.</translation>
    </message>
    <message>
        <source>Walk past two marks of the others, or place this walk on its own.</source>
        <translation>An zwei Festpunkten der anderen vorbeigehen oder diese Begehung für sich einpassen.</translation>
    </message>
    <message>
        <source>Walk the heights of its ends; or answer level if it was held level after all.</source>
        <translation>Die Höhen seiner Enden begehen; oder mit level antworten, wenn es doch waagerecht gehalten wurde.</translation>
    </message>
    <message>
        <source>Walk {walk} comes back to {mark} {gap:+.3f} m off in height, where its instrument should give {expected:.3f} m (one sigma).</source>
        <translation>Begehung {walk} kommt in der Höhe {gap:+.3f} m neben {mark} zurück; ihr Gerät sollte {expected:.3f} m geben (eine Standardabweichung).</translation>
    </message>
    <message>
        <source>Walk {walk} comes back to {mark} {gap:.3f} m off, where its instrument should give {expected:.3f} m (one sigma). Between stations {start} and {end} any one of these alone would explain it: {suspects}.</source>
        <translation>Begehung {walk} kommt {gap:.3f} m neben {mark} zurück; ihr Gerät sollte {expected:.3f} m geben (eine Standardabweichung). Zwischen den Standpunkten {start} und {end} würde jedes davon allein es erklären: {suspects}.</translation>
    </message>
    <message>
        <source>Walk {walk} comes back to {mark} {gap:.3f} m off, where its instrument should give {expected:.3f} m (one sigma). No single leg or turn between stations {start} and {end} explains it.</source>
        <translation>Begehung {walk} kommt {gap:.3f} m neben {mark} zurück; ihr Gerät sollte {expected:.3f} m geben (eine Standardabweichung). Keine einzelne Strecke oder Drehung zwischen den Standpunkten {start} und {end} erklärt es.</translation>
    </message>
    <message>
        <source>Walk {walk} ends on mark {mark}, and nothing checks the way there.</source>
        <translation>Begehung {walk} endet auf dem Festpunkt {mark}, und nichts prüft den Weg dorthin.</translation>
    </message>
    <message>
        <source>Walk {walk} ends on mark {mark}. Between its marks a single blunder would be seen from this size on: {sizes}.</source>
        <translation>Begehung {walk} endet auf dem Festpunkt {mark}. Zwischen ihren Festpunkten würde ein einzelner grober Fehler ab dieser Größe bemerkt: {sizes}.</translation>
    </message>
    <message>
        <source>Walk {walk} fits the known levels only with its marks {one} and {other} exchanged (would serve as well: {others}).</source>
        <translation>Begehung {walk} passt zu den bekannten Höhen nur, wenn ihre Festpunkte {one} und {other} getauscht sind (ebenso möglich: {others}).</translation>
    </message>
    <message>
        <source>Walk {walk} fits the other walks only as a mirror image (would serve as well: {others}).</source>
        <translation>Begehung {walk} passt zu den anderen Begehungen nur spiegelverkehrt (ebenso möglich: {others}).</translation>
    </message>
    <message>
        <source>Walk {walk} fits the other walks only with its marks {one} and {other} exchanged (would serve as well: {others}).</source>
        <translation>Begehung {walk} passt zu den anderen Begehungen nur, wenn ihre Festpunkte {one} und {other} getauscht sind (ebenso möglich: {others}).</translation>
    </message>
    <message>
        <source>Walk {walk} has two stations {station}. Give each a name of its own.</source>
        <translation>Begehung {walk} hat zwei Standpunkte {station}. Jedem einen eigenen Namen geben.</translation>
    </message>
    <message>
        <source>Walk {walk} has {count} stations, and a column of {cells}. Give each station its cell.</source>
        <translation>Begehung {walk} hat {count} Standpunkte und eine Spalte mit {cells}. Jedem Standpunkt sein Feld geben.</translation>
    </message>
    <message>
        <source>Walk {walk} has {count} stations, and two are the fewest. Draw it through all its stations.</source>
        <translation>Begehung {walk} hat {count} Standpunkte, zwei sind das wenigste. Sie durch alle ihre Standpunkte zeichnen.</translation>
    </message>
    <message>
        <source>Walk {walk} shares fewer than two marks with the others (shared: {shared}), so its place and turn are not known. It is left out.</source>
        <translation>Begehung {walk} hat weniger als zwei Festpunkte mit den anderen gemeinsam (gemeinsam: {shared}); ihre Lage und Drehung sind nicht bekannt. Sie wird weggelassen.</translation>
    </message>
    <message>
        <source>Walk {walk} stands on no mark: nothing checks it.</source>
        <translation>Begehung {walk} steht auf keinem Festpunkt: nichts prüft sie.</translation>
    </message>
    <message>
        <source>Walk {walk}, station {station}: it has no place. Draw it again.</source>
        <translation>Begehung {walk}, Standpunkt {station}: er hat keinen Ort. Neu zeichnen.</translation>
    </message>
    <message>
        <source>Walk {walk}, station {station}: mark {mark} is planned {gap:.2f} m from where it was before. Draw it in one place, or give one of the two another name.</source>
        <translation>Begehung {walk}, Standpunkt {station}: Festpunkt {mark} ist {gap:.2f} m von der Stelle geplant, an der er zuvor war. Ihn an einer Stelle zeichnen oder einem der beiden einen anderen Namen geben.</translation>
    </message>
    <message>
        <source>Walk {walk}: its lengths between marks are {ratio:.4g} times those of {source}, and no unit would explain that.</source>
        <translation>Begehung {walk}: ihre Längen zwischen Festpunkten sind das {ratio:.4g}-Fache derer von {source}, und keine Einheit würde das erklären.</translation>
    </message>
    <message>
        <source>Walk {walk}: its lengths between marks are {ratio:.4g} times those of {source}; the log says {unit}, and {true} would fit.</source>
        <translation>Begehung {walk}: ihre Längen zwischen Festpunkten sind das {ratio:.4g}-Fache derer von {source}; das Protokoll nennt {unit}, {true} würde passen.</translation>
    </message>
    <message>
        <source>Walk {walk}: {stations} stations, {length:.0f} m, {minutes:.0f} minutes.</source>
        <translation>Begehung {walk}: {stations} Standpunkte, {length:.0f} m, {minutes:.0f} Minuten.</translation>
    </message>
    <message>
        <source>Walking speed, metres a second</source>
        <translation>Gehgeschwindigkeit, Meter je Sekunde</translation>
    </message>
    <message>
        <source>Walks</source>
        <translation>Begehungen</translation>
    </message>
    <message>
        <source>Walls</source>
        <translation>Mauern</translation>
    </message>
    <message>
        <source>Walls, kerbs and edgings along the lines of any layer: front, centre and back length, arcs exact and corners mitred, retained height, face, body, footing and backfill, courses, and where straight units fit a curve.

Two lines of one feature whose parts are called foot and top give the height along the wall; where both are closed, as of a planter, it does not count where either begins. A line of its own takes the height that is given. Every row comes back with its own columns and these figures, each with its one-sigma; of two lines they stand in the row of the foot. design_ratio is the chance that the height passes the height from which a licensed designer is asked for, at the place where that is likeliest.

Walls and retaining structures follow local codes and a licensed practitioner&apos;s judgement. Have buried services located before breaking ground. Not a boundary or legal survey.</source>
        <translation>Mauern, Bordsteine und Einfassungen entlang der Linien eines beliebigen Layers: Länge vorn, in der Mitte und hinten, Bögen exakt und Ecken auf Gehrung, Stützhöhe, Ansichtsfläche, Körper, Fundament und Hinterfüllung, Schichten, und wo gerade Steine in eine Kurve passen.

Zwei Linien eines Objekts, deren Teile foot und top heißen, geben die Höhe entlang der Mauer; sind beide geschlossen, wie bei einem Pflanzbeet mit Rand, so ist es gleich, wo jede beginnt. Eine einzelne Linie nimmt die angegebene Höhe. Jede Zeile kommt mit ihren eigenen Spalten und diesen Maßen zurück, jedes mit seiner Standardabweichung; bei zwei Linien stehen sie in der Zeile des Fußes. design_ratio ist die Wahrscheinlichkeit, dass die Höhe die überschreitet, ab der zugelassene Planende verlangt sind, an der Stelle, wo das am wahrscheinlichsten ist.

Mauern und Stützbauwerke folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute. Vor dem Graben Leitungen im Boden orten lassen. Keine Grenz- oder amtliche Vermessung.</translation>
    </message>
    <message>
        <source>Was it the same point, with the same pole height? Correct the log, or leave this height out.</source>
        <translation>War es derselbe Punkt mit derselben Stabhöhe? Das Protokoll berichtigen oder diese Höhe weglassen.</translation>
    </message>
    <message>
        <source>Was it the same point? Correct the mark&apos;s name in the log, or leave this stand out.</source>
        <translation>War es derselbe Punkt? Den Namen des Festpunkts im Protokoll berichtigen oder diesen Stand weglassen.</translation>
    </message>
    <message>
        <source>Was the pole height changed? Enter it in the column pole before and after, or accept the heights.</source>
        <translation>Wurde die Stabhöhe geändert? Sie davor und danach in die Spalte pole eintragen oder die Höhen annehmen.</translation>
    </message>
    <message>
        <source>Waste of concrete, percent</source>
        <translation>Verlust an Beton, Prozent</translation>
    </message>
    <message>
        <source>Water of all ponds, cubic metres</source>
        <translation>Wasser aller Senken, Kubikmeter</translation>
    </message>
    <message>
        <source>Ways out</source>
        <translation>Abflusswege</translation>
    </message>
    <message>
        <source>Weak beyond, spacings</source>
        <translation>Schwach jenseits von, Punktabstände</translation>
    </message>
    <message>
        <source>Weak triangles</source>
        <translation>Schwache Dreiecke</translation>
    </message>
    <message>
        <source>Weak: {share:.0f} % of its area</source>
        <translation>Schwach: {share:.0f} % ihrer Fläche</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>What changed</source>
        <translation>Was sich geändert hat</translation>
    </message>
    <message>
        <source>What each column is, in order, with commas between: number, northing, easting, elevation, description, longitude, latitude, or other for a column that is only kept. It counts for every point list of the run, whatever its header says. For single lists, an entry each, with semicolons between: points.csv: number, easting, northing; pegs.txt: northing, easting.</source>
        <translation>Was jede Spalte ist, der Reihe nach, durch Kommas getrennt: number, northing, easting, elevation, description, longitude, latitude, oder other für eine Spalte, die nur aufgehoben wird. Es gilt für jede Punktliste des Laufs, was immer ihre Kopfzeile sagt. Für einzelne Listen je ein Eintrag, durch Semikolons getrennt: points.csv: number, easting, northing; pegs.txt: northing, easting.</translation>
    </message>
    <message>
        <source>What each height is worth by itself. It is an assumption, and may come from a field. A survey&apos;s own levels bring theirs.</source>
        <translation>Was jede Höhe für sich wert ist. Es ist eine Annahme und darf aus einem Feld kommen. Die Höhen eines Aufmaßes bringen ihre eigene mit.</translation>
    </message>
    <message>
        <source>What each instrument is worth, one sigma.</source>
        <translation>Was jedes Gerät leistet, eine Standardabweichung.</translation>
    </message>
    <message>
        <source>What each instrument is worth, one sigma: the file that goes with the logs.</source>
        <translation>Was jedes Gerät leistet, eine Standardabweichung: die Datei, die zu den Protokollen gehört.</translation>
    </message>
    <message>
        <source>What each point is worth by itself, one sigma along each axis; a shift of all of them together changes no size. It is an assumption, and the rows say so. It may come from a field.</source>
        <translation>Was jeder Punkt für sich wert ist, eine Standardabweichung je Achse; eine gemeinsame Verschiebung aller ändert kein Maß. Es ist eine Annahme, und die Zeilen sagen es. Es darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>What every run begins with, where nothing else is given to it. Stored figures are always metres.</source>
        <translation>Womit jeder Lauf beginnt, wenn ihm nichts anderes gegeben wird. Gespeicherte Maße sind immer Meter.</translation>
    </message>
    <message>
        <source>What heights are worth against each other is assumed for: {walks}. Make these surveys again to have it kept.</source>
        <translation>Was Höhen gegeneinander wert sind, ist angenommen für: {walks}. Diese Aufmaße neu rechnen, damit es aufgehoben wird.</translation>
    </message>
    <message>
        <source>What is delivered for what is laid, above 0: taken once.</source>
        <translation>Was für das Eingebaute geliefert wird, über 0: einmal genommen.</translation>
    </message>
    <message>
        <source>What is dug along the lines of any layer: volume, plan area, face to be lined or seeded, the mean section (the dig per metre), and mean, greatest and least depth, true to the ground, each with its one-sigma.

The section is rectangular, V-shaped, a trapezoid whose sides lean by the batter, or round-bottomed, and goes along the path of its centroid, arcs exact. Its depth is one, runs evenly to the depth at the end of the line, or from place to place as noted (a prismoid from each to the next); or it goes from the ground down to the inverts at both ends and the bedding below, the ground being the surface of the ground, cut at the edge of every triangle, or the line&apos;s own heights. Widths, depths and inverts that were noted on site are taken from a survey&apos;s lengths where they are not given.

Have buried services located before breaking ground. Trench sides need support, a safe slope or nobody in the trench, by local rules and a competent person&apos;s judgement: batter and depth are sizes here, not advice. Not a boundary or legal survey.</source>
        <translation>Was entlang der Linien eines beliebigen Layers ausgehoben wird: Volumen, Fläche in der Lage, auszukleidende oder einzusäende Ansichtsfläche, der mittlere Querschnitt (der Aushub je Meter) und mittlere, größte und kleinste Tiefe, wahr am Boden, jedes mit seiner Standardabweichung.

Der Querschnitt ist rechteckig, V-förmig, ein Trapez, dessen Seiten in der Böschungsneigung liegen, oder mit runder Sohle, und geht den Weg seines Schwerpunkts, Bögen exakt. Seine Tiefe ist eine einzige, läuft gleichmäßig bis zur Tiefe am Ende der Linie, oder von Ort zu Ort wie notiert (ein Prismatoid von jedem zum nächsten); oder sie reicht vom Boden hinab bis zu den Sohlhöhen an beiden Enden und der Bettung darunter, wobei der Boden die Oberfläche des Bodens ist, an der Kante jedes Dreiecks geschnitten, oder die eigenen Höhen der Linie. Breiten, Tiefen und Sohlhöhen, die vor Ort notiert wurden, werden aus den Längen eines Aufmaßes genommen, wo sie nicht angegeben sind.

Vor dem Graben Leitungen im Boden orten lassen. Grabenwände brauchen Verbau, eine sichere Böschung oder niemanden im Graben, nach den örtlichen Regeln und dem Urteil einer fachkundigen Person: Böschungsneigung und Tiefe sind hier Größen, kein Rat. Keine Grenz- oder amtliche Vermessung.</translation>
    </message>
    <message>
        <source>What is not given is taken from sizes noted on site, in the columns {columns}.</source>
        <translation>Was nicht angegeben ist, wird aus vor Ort notierten Größen genommen, in den Spalten {columns}.</translation>
    </message>
    <message>
        <source>What is to be known of the check</source>
        <translation>Was über die Prüfung zu wissen ist</translation>
    </message>
    <message>
        <source>What its uncertainty is made of (95 %, and share; the squares add up):</source>
        <translation>Woraus sich die Unsicherheit zusammensetzt (95 %, und Anteil; die Quadrate addieren sich):</translation>
    </message>
    <message>
        <source>What of</source>
        <translation>Wofür</translation>
    </message>
    <message>
        <source>What the instrument is worth is taken from the accuracy that the log states.</source>
        <translation>Was das Gerät leistet, kommt aus der Genauigkeit, die das Protokoll angibt.</translation>
    </message>
    <message>
        <source>What the instrument is worth is taken from the instruments file.</source>
        <translation>Was das Gerät leistet, kommt aus der Gerätedatei.</translation>
    </message>
    <message>
        <source>What the instrument is worth is taken from the log&apos;s own sd columns.</source>
        <translation>Was das Gerät leistet, kommt aus den sd-Spalten des Protokolls.</translation>
    </message>
    <message>
        <source>What the picture&apos;s points err by against each other, one sigma, metres.</source>
        <translation>Um wie viel die Punkte des Bildes gegeneinander irren, eine Standardabweichung, Meter.</translation>
    </message>
    <message>
        <source>What the whole picture may be shifted by, one sigma, metres: it moves the site, not its size.</source>
        <translation>Um wie viel das ganze Bild verschoben sein kann, eine Standardabweichung, Meter: es verschiebt das Gelände, nicht seine Größe.</translation>
    </message>
    <message>
        <source>What to show</source>
        <translation>Was zu zeigen ist</translation>
    </message>
    <message>
        <source>What was drawn lies outside what the CRS of the layer {layer} can hold. Choose another layer.</source>
        <translation>Was gezeichnet wurde, liegt außerhalb dessen, was das KBS des Layers {layer} fassen kann. Einen anderen Layer wählen.</translation>
    </message>
    <message>
        <source>What was noticed</source>
        <translation>Was bemerkt wurde</translation>
    </message>
    <message>
        <source>What would help</source>
        <translation>Was helfen würde</translation>
    </message>
    <message>
        <source>What would help most:</source>
        <translation>Was am meisten helfen würde:</translation>
    </message>
    <message>
        <source>Where a larger one could hide the outcome is cannot tell; of an area this times its outline.</source>
        <translation>Wo eine größere verborgen sein könnte, ist das Ergebnis cannot tell; bei einer Fläche dies mal ihrem Umriss.</translation>
    </message>
    <message>
        <source>Where it is empty, as-walked rows are drawn as recorded, with a chord from row to row. Else they become the fewest straights and tangent arcs of which no row lies off by more than this; corners stay. Take five times the noise from row to row, or more. Nothing is fitted where the rows do not speak for it: those stay as recorded, and their method says so.</source>
        <translation>Wo es leer ist, werden wie gegangene Zeilen gezeichnet, wie sie aufgenommen sind, mit einer Sehne von Zeile zu Zeile. Sonst werden sie die wenigsten Geraden und tangentialen Bögen, von denen keine Zeile weiter abliegt; Ecken bleiben. Das Fünffache des Rauschens von Zeile zu Zeile nehmen, oder mehr. Nichts wird eingepasst, wo die Zeilen nicht dafür sprechen: diese bleiben wie aufgenommen, und ihre Spalte method sagt es.</translation>
    </message>
    <message>
        <source>Where it is empty, radii are alike that differ by no more than their joint 95 %.</source>
        <translation>Wo es leer ist, sind Radien gleich, die sich um nicht mehr als ihre gemeinsamen 95 % unterscheiden.</translation>
    </message>
    <message>
        <source>Where it is empty, the examples shipped. Copy limits.csv of the formats and edit it.</source>
        <translation>Wo es leer ist, die mitgelieferten Beispiele. limits.csv aus den Formaten kopieren und bearbeiten.</translation>
    </message>
    <message>
        <source>Where it is empty, the third coordinate counts, in the CRS&apos;s unit of height.</source>
        <translation>Wo es leer ist, zählt die dritte Koordinate, in der Höheneinheit des KBS.</translation>
    </message>
    <message>
        <source>Where it is empty, what is left over when the arcs are fitted tells it.</source>
        <translation>Wo es leer ist, sagt es, was beim Einpassen der Bögen übrig bleibt.</translation>
    </message>
    <message>
        <source>Where it is not 0, the depth runs evenly from the depth above, or from what was noted at the start, to it. It may come from a field.</source>
        <translation>Wo sie nicht 0 ist, läuft die Tiefe gleichmäßig von der obigen Tiefe, oder von der am Anfang notierten, bis zu ihr. Darf aus einem Feld kommen.</translation>
    </message>
    <message>
        <source>Where it lies, looking along its line</source>
        <translation>Wo er liegt, in Richtung seiner Linie gesehen</translation>
    </message>
    <message>
        <source>Where the strip lies</source>
        <translation>Wo der Streifen liegt</translation>
    </message>
    <message>
        <source>Where the wall lies, looking along its line</source>
        <translation>Wo die Mauer liegt, in Richtung ihrer Linie gesehen</translation>
    </message>
    <message>
        <source>Where there is no boundary, longer ones are taken off from outside; where it is empty, none is.</source>
        <translation>Wo es keine Begrenzung gibt, werden längere von außen weggenommen; wo es leer ist, keine.</translation>
    </message>
    <message>
        <source>Where water stands on a surface of triangles: the level it rises to before it runs off, depth, area and volume, exact over the triangles, each with its one-sigma.

Ponds has them, the deepest first; Spill points where they run off; Ways out the way the water takes from there, downhill over the triangles, into the next pond or over the rim. Outer edges of the surface and edges of voids let water out: put drains in as voids. Where the depth is less than its 95 % interval, the outcome is cannot tell. What soaks away, dries or is too deep for a pipe is not reckoned.

Falls and drains follow local codes and a licensed practitioner&apos;s judgement. Not a boundary or legal survey. Have buried services located before breaking ground.</source>
        <translation>Wo auf einer Oberfläche aus Dreiecken Wasser steht: die Höhe, bis zu der es steigt, bevor es abläuft, Tiefe, Fläche und Volumen, exakt über die Dreiecke, jedes mit seiner Standardabweichung.

„Senken“ hat sie, die tiefste zuerst; „Überlaufpunkte“, wo sie ablaufen; „Abflusswege“ den Weg, den das Wasser von dort nimmt, über die Dreiecke abwärts in die nächste Senke oder über den Rand. Äußere Ränder der Oberfläche und Ränder von Aussparungen lassen Wasser hinaus: Abläufe als Aussparungen einsetzen. Wo die Tiefe kleiner ist als ihr 95-%-Bereich, ist das Ergebnis cannot tell (nicht zu entscheiden). Was versickert, verdunstet oder für ein Rohr zu tief ist, wird nicht gerechnet.

Gefälle und Abläufe folgen den örtlichen Vorschriften und dem Urteil der zugelassenen Fachleute. Keine Grenz- oder amtliche Vermessung. Vor dem Graben Leitungen im Boden orten lassen.</translation>
    </message>
    <message>
        <source>Whether a strip runs over itself is told by the library {library}, which is not there. Install it.</source>
        <translation>Ob ein Streifen über sich selbst läuft, sagt die Bibliothek {library}, die nicht da ist. Sie installieren.</translation>
    </message>
    <message>
        <source>Which &amp;column is which...</source>
        <translation>&amp;Welche Spalte ist welche...</translation>
    </message>
    <message>
        <source>Which checks to show</source>
        <translation>Welche Prüfungen zu zeigen sind</translation>
    </message>
    <message>
        <source>Who answers findings</source>
        <translation>Wer Befunde beantwortet</translation>
    </message>
    <message>
        <source>Width of a mesh sheet, metres</source>
        <translation>Breite einer Matte, Meter</translation>
    </message>
    <message>
        <source>Width of a path drawn as one line, metres</source>
        <translation>Breite eines Wegs, der als eine Linie gezeichnet ist, Meter</translation>
    </message>
    <message>
        <source>Width of a profile&apos;s face, metres</source>
        <translation>Breite der Ansichtsfläche eines Profils, Meter</translation>
    </message>
    <message>
        <source>Width of a roll of turf, metres</source>
        <translation>Breite einer Rolle Rasen, Meter</translation>
    </message>
    <message>
        <source>Width of a thickened edge at its foot, metres</source>
        <translation>Breite eines verstärkten Rands an seinem Fuß, Meter</translation>
    </message>
    <message>
        <source>Width of drain and backfill behind the wall, metres</source>
        <translation>Breite von Dränung und Hinterfüllung hinter der Mauer, Meter</translation>
    </message>
    <message>
        <source>Width of the footing, metres</source>
        <translation>Breite des Fundaments, Meter</translation>
    </message>
    <message>
        <source>Width of the strip, metres</source>
        <translation>Breite des Streifens, Meter</translation>
    </message>
    <message>
        <source>Width to the left, metres</source>
        <translation>Breite nach links, Meter</translation>
    </message>
    <message>
        <source>Width to the right, metres</source>
        <translation>Breite nach rechts, Meter</translation>
    </message>
    <message>
        <source>Width, metres</source>
        <translation>Breite, Meter</translation>
    </message>
    <message>
        <source>Widths of {left:g} m to the left and {right:g} m to the right make no section. Give widths of 0 or more, one of them more than 0.</source>
        <translation>Breiten von {left:g} m nach links und {right:g} m nach rechts ergeben keinen Schnitt. Breiten von 0 oder mehr angeben, eine davon größer als 0.</translation>
    </message>
    <message>
        <source>With commas between, as 5 %, 1:4 or 0.25, from the flattest to the steepest. The default is an example for mowing, common practice, no source: what a machine may mow its maker says.</source>
        <translation>Mit Kommas dazwischen, als 5 %, 1:4 oder 0.25, von der flachsten zur steilsten. Die Voreinstellung ist ein Beispiel für das Mähen, übliche Praxis, ohne Quelle: was eine Maschine mähen darf, sagt ihr Hersteller.</translation>
    </message>
    <message>
        <source>With heights of their own, or over the surface.</source>
        <translation>Mit eigenen Höhen oder über der Oberfläche.</translation>
    </message>
    <message>
        <source>Words with commas between, such as: ADA, Practice paving; a whole name between double quotes.</source>
        <translation>Wörter, durch Kommas getrennt, etwa: ADA, Practice paving; ein ganzer Name in doppelten Anführungszeichen.</translation>
    </message>
    <message>
        <source>Works lie where the CRS of the trees has no place. Check both layers&apos; CRS.</source>
        <translation>Arbeiten liegen, wo das KBS der Bäume keinen Ort hat. Das KBS beider Layer prüfen.</translation>
    </message>
    <message>
        <source>Works: dig, fill, paving</source>
        <translation>Arbeiten: Abgrabung, Auffüllung, Belag</translation>
    </message>
    <message>
        <source>Write all times of a walk in one way (with a zone, without, or in seconds); the rest of the file was read.</source>
        <translation>Alle Zeiten einer Begehung auf eine Art schreiben (mit Zone, ohne, oder in Sekunden); der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write cw or ccw into rot; the rest of the file was read.</source>
        <translation>cw oder ccw in „rot“ schreiben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write it as a TIN: its points and faces.</source>
        <translation>Als TIN schreiben: ihre Punkte und Dreiecke.</translation>
    </message>
    <message>
        <source>Write it as lines and arcs, or as an IrregularLine; the rest of the file was read.</source>
        <translation>Als Linien und Bögen schreiben oder als IrregularLine; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write it like 2024-05-01T09:30:00, or as seconds from the start; the rest of the file was read.</source>
        <translation>So schreiben: 2024-05-01T09:30:00, oder als Sekunden vom Anfang; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write it like 2026-05-12, 2026-05 or 2026.</source>
        <translation>So schreiben: 2026-05-12, 2026-05 oder 2026.</translation>
    </message>
    <message>
        <source>Write it like rise up to 150 mm, or run at 5 m, or empty the field; the rest of the file was read.</source>
        <translation>So schreiben: rise up to 150 mm, oder run at 5 m, oder das Feld leeren; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write it like {example}; the rest of the file was read.</source>
        <translation>So schreiben: {example}; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write left or right into offset_side; the rest of the file was read.</source>
        <translation>left oder right in offset_side schreiben; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write one of meter, millimeter, centimeter, kilometer, foot, USSurveyFoot, inch, mile, or answer for {place} with m, ft or us-ft.</source>
        <translation>Eines schreiben von meter, millimeter, centimeter, kilometer, foot, USSurveyFoot, inch, mile, oder für {place} mit m, ft oder us-ft antworten.</translation>
    </message>
    <message>
        <source>Write one of these words or empty the field; the rest of the file was read.</source>
        <translation>Eines dieser Wörter schreiben oder das Feld leeren; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Write one of: {units}, or answer for {place} with m, ft or us-ft.</source>
        <translation>Eine schreiben von: {units}, oder für {place} mit m, ft oder us-ft antworten.</translation>
    </message>
    <message>
        <source>Write the area&apos;s name as its own rows have it.</source>
        <translation>Den Namen der Fläche schreiben, wie ihre eigenen Zeilen ihn haben.</translation>
    </message>
    <message>
        <source>Write {better}, or separate the columns with semicolons; the rest of the file was read.</source>
        <translation>{better} schreiben oder die Spalten mit Semikolon trennen; der Rest der Datei wurde gelesen.</translation>
    </message>
    <message>
        <source>Writing the GeoPackage</source>
        <translation>Das GeoPackage wird geschrieben</translation>
    </message>
    <message>
        <source>Writing the stations</source>
        <translation>Die Standpunkte werden geschrieben</translation>
    </message>
    <message>
        <source>Writing the surface</source>
        <translation>Die Oberfläche wird geschrieben</translation>
    </message>
    <message>
        <source>Written so finely, and all so near together: these are degrees. Hold the sketch against the site.</source>
        <translation>So fein geschrieben und alle so nah beieinander: das sind Grad. Die Skizze mit dem Gelände vergleichen.</translation>
    </message>
    <message>
        <source>Wrong point, wrong unit or wrong CRS: check these map points.</source>
        <translation>Falscher Punkt, falsche Einheit oder falsches KBS: diese Passpunkte prüfen.</translation>
    </message>
    <message>
        <source>Zero line</source>
        <translation>Nulllinie</translation>
    </message>
    <message>
        <source>Zero line of {name} to {target}</source>
        <translation>Nulllinie von {name} gegen {target}</translation>
    </message>
    <message>
        <source>a level</source>
        <translation>eine Höhe</translation>
    </message>
    <message>
        <source>a pixel is {size} of ground</source>
        <translation>ein Pixel ist {size} Boden</translation>
    </message>
    <message>
        <source>a plane</source>
        <translation>eine Ebene</translation>
    </message>
    <message>
        <source>a surface</source>
        <translation>eine Oberfläche</translation>
    </message>
    <message>
        <source>accuracy as stated</source>
        <translation>Genauigkeit wie angegeben</translation>
    </message>
    <message>
        <source>adjustment</source>
        <translation>Ausgleichung</translation>
    </message>
    <message>
        <source>all of it</source>
        <translation>als Ganzes</translation>
    </message>
    <message>
        <source>all of the ground</source>
        <translation>der ganze Boden</translation>
    </message>
    <message>
        <source>all of the walks&apos; errors</source>
        <translation>alle Fehler der Begehungen</translation>
    </message>
    <message>
        <source>all others, as lines only</source>
        <translation>alle anderen, nur als Linien</translation>
    </message>
    <message>
        <source>all {n} have an item</source>
        <translation>alle {n} haben eine Position</translation>
    </message>
    <message>
        <source>along the line, {unit}</source>
        <translation>entlang der Linie, {unit}</translation>
    </message>
    <message>
        <source>and {count} more: enlarge</source>
        <translation>und {count} weitere: vergrößern</translation>
    </message>
    <message>
        <source>and {n} edges more</source>
        <translation>und {n} weitere Kanten</translation>
    </message>
    <message>
        <source>arc in the vertical plane, r {r} · {radians} ({sweep}) = {length}</source>
        <translation>Bogen in der senkrechten Ebene, r {r} · {radians} ({sweep}) = {length}</translation>
    </message>
    <message>
        <source>arc r {r} · {radians} ({sweep}) = {length}</source>
        <translation>Bogen r {r} · {radians} ({sweep}) = {length}</translation>
    </message>
    <message>
        <source>arc r {r}, θ {sweep}: {segment}</source>
        <translation>Bogen r {r}, θ {sweep}: {segment}</translation>
    </message>
    <message>
        <source>area</source>
        <translation>Fläche</translation>
    </message>
    <message>
        <source>as in the file: {crs}</source>
        <translation>wie in der Datei: {crs}</translation>
    </message>
    <message>
        <source>as in the file: {units}</source>
        <translation>wie in der Datei: {units}</translation>
    </message>
    <message>
        <source>ask</source>
        <translation>Frage</translation>
    </message>
    <message>
        <source>asks from here</source>
        <translation>fragt ab hier</translation>
    </message>
    <message>
        <source>assumed</source>
        <translation>angenommen</translation>
    </message>
    <message>
        <source>at {along:.2f} {unit}</source>
        <translation>bei {along:.2f} {unit}</translation>
    </message>
    <message>
        <source>between: not known</source>
        <translation>dazwischen: nicht bekannt</translation>
    </message>
    <message>
        <source>blunder: three times</source>
        <translation>grober Fehler: das Dreifache</translation>
    </message>
    <message>
        <source>cannot tell</source>
        <translation>nicht zu entscheiden</translation>
    </message>
    <message>
        <source>check</source>
        <translation>Kontrolle</translation>
    </message>
    <message>
        <source>check point</source>
        <translation>Kontrollpunkt</translation>
    </message>
    <message>
        <source>check point {mark}</source>
        <translation>Kontrollpunkt {mark}</translation>
    </message>
    <message>
        <source>cm: centimetres</source>
        <translation>cm: Zentimeter</translation>
    </message>
    <message>
        <source>come back to no mark: {walks}</source>
        <translation>kommen zu keinem Festpunkt zurück: {walks}</translation>
    </message>
    <message>
        <source>control</source>
        <translation>Passpunkte</translation>
    </message>
    <message>
        <source>corner {figure}</source>
        <translation>Ecke {figure}</translation>
    </message>
    <message>
        <source>counted with {feature}, {part} (row {row})</source>
        <translation>gezählt mit {feature}, {part} (Zeile {row})</translation>
    </message>
    <message>
        <source>cut (C)</source>
        <translation>Abtrag (Ab)</translation>
    </message>
    <message>
        <source>cut C</source>
        <translation>Abtrag (Ab)</translation>
    </message>
    <message>
        <source>decisions</source>
        <translation>Entscheidungen</translation>
    </message>
    <message>
        <source>each map point by itself</source>
        <translation>jeder Kartenpunkt für sich</translation>
    </message>
    <message>
        <source>each point, as stated</source>
        <translation>jeder Punkt, wie angegeben</translation>
    </message>
    <message>
        <source>each station by itself</source>
        <translation>jeder Standpunkt für sich</translation>
    </message>
    <message>
        <source>edge</source>
        <translation>Kante</translation>
    </message>
    <message>
        <source>edge between stations {start} and {end} of {walk}</source>
        <translation>Kante zwischen den Standpunkten {start} und {end} von {walk}</translation>
    </message>
    <message>
        <source>existing</source>
        <translation>vorhanden</translation>
    </message>
    <message>
        <source>fails</source>
        <translation>nicht bestanden</translation>
    </message>
    <message>
        <source>far corner</source>
        <translation>ferne Ecke</translation>
    </message>
    <message>
        <source>feet (international, 0.3048 m)</source>
        <translation>Fuß (international, 0,3048 m)</translation>
    </message>
    <message>
        <source>file of instruments</source>
        <translation>Gerätedatei</translation>
    </message>
    <message>
        <source>fill (F)</source>
        <translation>Auftrag (Auf)</translation>
    </message>
    <message>
        <source>fill F</source>
        <translation>Auftrag (Auf)</translation>
    </message>
    <message>
        <source>fit</source>
        <translation>Einpassung</translation>
    </message>
    <message>
        <source>fit is {value}. Give a part from 0 to 1.</source>
        <translation>fit ist {value}. Einen Anteil von 0 bis 1 angeben.</translation>
    </message>
    <message>
        <source>from memory: look it up before use</source>
        <translation>aus dem Gedächtnis: vor dem Verwenden nachschlagen</translation>
    </message>
    <message>
        <source>from station to station</source>
        <translation>von Standpunkt zu Standpunkt</translation>
    </message>
    <message>
        <source>ft: international feet</source>
        <translation>ft: internationale Fuß</translation>
    </message>
    <message>
        <source>heading</source>
        <translation>Richtung</translation>
    </message>
    <message>
        <source>height known</source>
        <translation>Höhe bekannt</translation>
    </message>
    <message>
        <source>hole</source>
        <translation>Aussparung</translation>
    </message>
    <message>
        <source>in {datum}</source>
        <translation>in {datum}</translation>
    </message>
    <message>
        <source>in: inches</source>
        <translation>in: Zoll</translation>
    </message>
    <message>
        <source>instrument</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>instruments</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>known levels</source>
        <translation>bekannte Höhen</translation>
    </message>
    <message>
        <source>left out</source>
        <translation>weggelassen</translation>
    </message>
    <message>
        <source>length</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>length, {words}</source>
        <translation>Länge, {words}</translation>
    </message>
    <message>
        <source>let go; off by {size}</source>
        <translation>weggefallen; {size} daneben</translation>
    </message>
    <message>
        <source>level</source>
        <translation>waagerecht</translation>
    </message>
    <message>
        <source>level of {mark}</source>
        <translation>Höhe von {mark}</translation>
    </message>
    <message>
        <source>level {level:g} {unit}</source>
        <translation>Höhe {level:g} {unit}</translation>
    </message>
    <message>
        <source>level, {unit} ({datum})</source>
        <translation>Höhe, {unit} ({datum})</translation>
    </message>
    <message>
        <source>limit</source>
        <translation>Grenzwert</translation>
    </message>
    <message>
        <source>looked up</source>
        <translation>nachgeschlagen</translation>
    </message>
    <message>
        <source>m: metres</source>
        <translation>m: Meter</translation>
    </message>
    <message>
        <source>map point that was fitted</source>
        <translation>eingepasster Kartenpunkt</translation>
    </message>
    <message>
        <source>map point {mark}</source>
        <translation>Kartenpunkt {mark}</translation>
    </message>
    <message>
        <source>map points</source>
        <translation>Kartenpunkte</translation>
    </message>
    <message>
        <source>map to walk {scale:.4f}</source>
        <translation>Karte zu Begehung {scale:.4f}</translation>
    </message>
    <message>
        <source>mark</source>
        <translation>Festpunkt</translation>
    </message>
    <message>
        <source>mark {mark}</source>
        <translation>Festpunkt {mark}</translation>
    </message>
    <message>
        <source>metres</source>
        <translation>Meter</translation>
    </message>
    <message>
        <source>mm: millimetres</source>
        <translation>mm: Millimeter</translation>
    </message>
    <message>
        <source>nearly level, so it may fall any way</source>
        <translation>fast waagerecht, es kann also in jede Richtung fallen</translation>
    </message>
    <message>
        <source>new or not stated</source>
        <translation>neu oder nicht angegeben</translation>
    </message>
    <message>
        <source>no CRS</source>
        <translation>kein KBS</translation>
    </message>
    <message>
        <source>no date</source>
        <translation>kein Datum</translation>
    </message>
    <message>
        <source>no error</source>
        <translation>kein Fehler</translation>
    </message>
    <message>
        <source>no figure</source>
        <translation>kein Maß</translation>
    </message>
    <message>
        <source>no figure: {codes}</source>
        <translation>kein Maß: {codes}</translation>
    </message>
    <message>
        <source>no figures: see findings</source>
        <translation>keine Maße: siehe Befunde</translation>
    </message>
    <message>
        <source>no limit is of it</source>
        <translation>kein Grenzwert gilt dafür</translation>
    </message>
    <message>
        <source>no limit of the table is of anything here</source>
        <translation>kein Grenzwert der Tabelle gilt für etwas hier</translation>
    </message>
    <message>
        <source>no source given</source>
        <translation>keine Quelle angegeben</translation>
    </message>
    <message>
        <source>no surface yet</source>
        <translation>noch keine Oberfläche</translation>
    </message>
    <message>
        <source>no table</source>
        <translation>keine Tabelle</translation>
    </message>
    <message>
        <source>no taped length checks the size of the walks.</source>
        <translation>kein Bandmaß prüft die Größe der Begehungen.</translation>
    </message>
    <message>
        <source>no walk comes back to a mark</source>
        <translation>keine Begehung kommt zu einem Festpunkt zurück</translation>
    </message>
    <message>
        <source>noise from row to row</source>
        <translation>Rauschen von Zeile zu Zeile</translation>
    </message>
    <message>
        <source>noise of legs</source>
        <translation>Rauschen der Strecken</translation>
    </message>
    <message>
        <source>noise of stands</source>
        <translation>Rauschen der Stände</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>none yet: drawing makes one</source>
        <translation>noch keiner: beim Zeichnen entsteht einer</translation>
    </message>
    <message>
        <source>none yet: setting makes one</source>
        <translation>noch keiner: beim Setzen entsteht einer</translation>
    </message>
    <message>
        <source>none: a plane of its own</source>
        <translation>keines: eine eigene Ebene</translation>
    </message>
    <message>
        <source>none: nothing checks the walks against each other</source>
        <translation>keine: nichts prüft die Begehungen gegeneinander</translation>
    </message>
    <message>
        <source>none: upright</source>
        <translation>keine: senkrecht</translation>
    </message>
    <message>
        <source>none: what was walked alone</source>
        <translation>keine: nur, was begangen wurde</translation>
    </message>
    <message>
        <source>not given in the file</source>
        <translation>in der Datei nicht angegeben</translation>
    </message>
    <message>
        <source>not held against limits yet</source>
        <translation>noch nicht an Grenzwerten geprüft</translation>
    </message>
    <message>
        <source>not known (assumed)</source>
        <translation>nicht bekannt (angenommen)</translation>
    </message>
    <message>
        <source>not measured</source>
        <translation>nicht gemessen</translation>
    </message>
    <message>
        <source>not picked</source>
        <translation>nicht abgegriffen</translation>
    </message>
    <message>
        <source>not read</source>
        <translation>nicht gelesen</translation>
    </message>
    <message>
        <source>not told</source>
        <translation>nicht angegeben</translation>
    </message>
    <message>
        <source>not used</source>
        <translation>nicht verwendet</translation>
    </message>
    <message>
        <source>note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>nichts</translation>
    </message>
    <message>
        <source>nothing changes</source>
        <translation>nichts ändert sich</translation>
    </message>
    <message>
        <source>nothing lies under the survey, and no mark can be picked from it.</source>
        <translation>nichts liegt unter dem Aufmaß, und kein Festpunkt lässt sich daraus abgreifen.</translation>
    </message>
    <message>
        <source>nothing surveyed yet: run the job</source>
        <translation>noch nichts aufgemessen: die Arbeit starten</translation>
    </message>
    <message>
        <source>only the way</source>
        <translation>nur der Weg</translation>
    </message>
    <message>
        <source>out of date: {words}</source>
        <translation>veraltet: {words}</translation>
    </message>
    <message>
        <source>passes</source>
        <translation>bestanden</translation>
    </message>
    <message>
        <source>perimeter {size}</source>
        <translation>Umfang {size}</translation>
    </message>
    <message>
        <source>picture</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>placement</source>
        <translation>Einpassung</translation>
    </message>
    <message>
        <source>point list</source>
        <translation>Punktliste</translation>
    </message>
    <message>
        <source>prices</source>
        <translation>Preise</translation>
    </message>
    <message>
        <source>relative</source>
        <translation>relativ</translation>
    </message>
    <message>
        <source>relative: no level mark</source>
        <translation>relativ: kein Höhenfestpunkt</translation>
    </message>
    <message>
        <source>residual in its own sigmas</source>
        <translation>Restklaffe in eigenen Standardabweichungen</translation>
    </message>
    <message>
        <source>row {n}</source>
        <translation>Zeile {n}</translation>
    </message>
    <message>
        <source>scale</source>
        <translation>Maßstab</translation>
    </message>
    <message>
        <source>shift of all map points</source>
        <translation>Verschiebung aller Kartenpunkte</translation>
    </message>
    <message>
        <source>sigma</source>
        <translation>Standardabweichung</translation>
    </message>
    <message>
        <source>spot with its height</source>
        <translation>Einzelpunkt mit seiner Höhe</translation>
    </message>
    <message>
        <source>station</source>
        <translation>Standpunkt</translation>
    </message>
    <message>
        <source>station {station} of {walk}</source>
        <translation>Standpunkt {station} von {walk}</translation>
    </message>
    <message>
        <source>station ± 95 %</source>
        <translation>Standpunkt ± 95 %</translation>
    </message>
    <message>
        <source>stop</source>
        <translation>Sperre</translation>
    </message>
    <message>
        <source>stops from here</source>
        <translation>sperrt ab hier</translation>
    </message>
    <message>
        <source>straights and chords {straights}, segments {segments}: {area}</source>
        <translation>Geraden und Sehnen {straights}, Abschnitte {segments}: {area}</translation>
    </message>
    <message>
        <source>surface {name}, as in its file</source>
        <translation>Oberfläche {name}, wie in ihrer Datei</translation>
    </message>
    <message>
        <source>taken {date}</source>
        <translation>aufgenommen {date}</translation>
    </message>
    <message>
        <source>tape {mark} to {other}</source>
        <translation>Bandmaß {mark} bis {other}</translation>
    </message>
    <message>
        <source>taped lengths</source>
        <translation>mit dem Band gemessene Längen</translation>
    </message>
    <message>
        <source>tapes</source>
        <translation>Bandmaße</translation>
    </message>
    <message>
        <source>the CRS&apos;s own unit</source>
        <translation>die Einheit des KBS</translation>
    </message>
    <message>
        <source>the accuracy that the logs state counts, or an assumed one.</source>
        <translation>es gilt die Genauigkeit, die die Protokolle angeben, oder eine angenommene.</translation>
    </message>
    <message>
        <source>the control&apos;s</source>
        <translation>das der Passpunkte</translation>
    </message>
    <message>
        <source>the control&apos;s datum</source>
        <translation>das Höhenbezugssystem der Passpunkte</translation>
    </message>
    <message>
        <source>the control&apos;s: {crs}</source>
        <translation>das der Passpunkte: {crs}</translation>
    </message>
    <message>
        <source>the examples</source>
        <translation>die Beispiele</translation>
    </message>
    <message>
        <source>the folder is not writable</source>
        <translation>der Ordner ist nicht beschreibbar</translation>
    </message>
    <message>
        <source>the logs&apos; own CRS places the survey, and nothing checks it.</source>
        <translation>das KBS der Protokolle selbst passt das Aufmaß ein, und nichts prüft es.</translation>
    </message>
    <message>
        <source>the mark lies within (95 %)</source>
        <translation>der Festpunkt liegt innerhalb (95 %)</translation>
    </message>
    <message>
        <source>the survey cannot be read: run the job again</source>
        <translation>das Aufmaß ist nicht lesbar: die Arbeit noch einmal starten</translation>
    </message>
    <message>
        <source>the survey will not be placed on the map; it is measured all the same.</source>
        <translation>das Aufmaß wird nicht in die Karte eingepasst; gemessen wird es trotzdem.</translation>
    </message>
    <message>
        <source>the survey will not be placed; pair marks with the picture afterwards.</source>
        <translation>das Aufmaß wird nicht eingepasst; Festpunkte danach mit dem Bild paaren.</translation>
    </message>
    <message>
        <source>they cannot be read: check again</source>
        <translation>sie sind nicht lesbar: neu prüfen</translation>
    </message>
    <message>
        <source>tiles: a pick is worth a pixel as the map shows it</source>
        <translation>Kacheln: ein Abgriff ist ein Pixel wert, wie die Karte es zeigt</translation>
    </message>
    <message>
        <source>to remove</source>
        <translation>zu entfernen</translation>
    </message>
    <message>
        <source>to retain</source>
        <translation>zu erhalten</translation>
    </message>
    <message>
        <source>together {area}</source>
        <translation>zusammen {area}</translation>
    </message>
    <message>
        <source>together {length}</source>
        <translation>zusammen {length}</translation>
    </message>
    <message>
        <source>unknown</source>
        <translation>unbekannt</translation>
    </message>
    <message>
        <source>unknown table</source>
        <translation>unbekannte Tabelle</translation>
    </message>
    <message>
        <source>upright</source>
        <translation>senkrecht</translation>
    </message>
    <message>
        <source>us-ft: US survey feet</source>
        <translation>us-ft: US-Survey-Fuß</translation>
    </message>
    <message>
        <source>walk log</source>
        <translation>Begehungsprotokoll</translation>
    </message>
    <message>
        <source>walked edge ± 95 %</source>
        <translation>begangene Kante ± 95 %</translation>
    </message>
    <message>
        <source>weak</source>
        <translation>schwach</translation>
    </message>
    <message>
        <source>where a walk alone puts the mark</source>
        <translation>wohin eine Begehung allein den Festpunkt setzt</translation>
    </message>
    <message>
        <source>where the edge is taken to lie</source>
        <translation>wo die Kante als liegend angenommen ist</translation>
    </message>
    <message>
        <source>x, m</source>
        <translation>x, m</translation>
    </message>
    <message>
        <source>y, m</source>
        <translation>y, m</translation>
    </message>
    <message>
        <source>z, m</source>
        <translation>z, m</translation>
    </message>
    <message>
        <source>{answer} (recommended)</source>
        <translation>{answer} (empfohlen)</translation>
    </message>
    <message>
        <source>{areas} areas, {total:.1f} m² in all; {lengths} lengths</source>
        <translation>{areas} Flächen, zusammen {total:.1f} m²; {lengths} Längen</translation>
    </message>
    <message>
        <source>{code}: {message} {remedy}</source>
        <translation>{code}: {message} {remedy}</translation>
    </message>
    <message>
        <source>{column} is chosen twice.</source>
        <translation>{column} ist zweimal gewählt.</translation>
    </message>
    <message>
        <source>{counts}; worst: {check}</source>
        <translation>{counts}; schlechteste: {check}</translation>
    </message>
    <message>
        <source>{count} edges are left out: an open stop keeps their heights out.</source>
        <translation>{count} Kanten sind weggelassen: eine offene Sperre hält ihre Höhen zurück.</translation>
    </message>
    <message>
        <source>{count} lines meet no surface: {names}.</source>
        <translation>{count} Linien treffen keine Oberfläche: {names}.</translation>
    </message>
    <message>
        <source>{count} more like this.</source>
        <translation>{count} weitere wie dieser.</translation>
    </message>
    <message>
        <source>{count} of the points given have no place or no height. Give all three coordinates, or leave them out.</source>
        <translation>{count} der angegebenen Punkte haben keinen Ort oder keine Höhe. Alle drei Koordinaten angeben oder sie weglassen.</translation>
    </message>
    <message>
        <source>{count} point makes no line.</source>
        <translation>{count} Punkt ergibt keine Linie.</translation>
    </message>
    <message>
        <source>{count} point makes no line. Add points, or delete the row.</source>
        <translation>{count} Punkt ergibt keine Linie. Punkte hinzufügen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>{count} points: {width} from west to east, {height} from south to north.</source>
        <translation>{count} Punkte: {width} von West nach Ost, {height} von Süd nach Nord.</translation>
    </message>
    <message>
        <source>{count} sections cross the next one inside a bend of the baseline: what lies there is counted twice in end areas. Make the width on that side smaller.</source>
        <translation>{count} Schnitte kreuzen den nächsten an der Innenseite einer Biegung der Achse: was dort liegt, wird bei den Querschnittsflächen zweimal gezählt. Die Breite auf dieser Seite verkleinern.</translation>
    </message>
    <message>
        <source>{count} triangle of {total}, {part:.1f} % of the surface, is weak: far from every point, on one line of points, or a sliver of the rim.</source>
        <translation>{count} Dreieck von {total}, {part:.1f} % der Oberfläche, ist schwach: fern von jedem Punkt, auf einer Linie von Punkten, oder ein schmales Dreieck am Rand.</translation>
    </message>
    <message>
        <source>{count} triangles of {total}, {part:.1f} % of the surface, are weak: far from every point, on one line of points, or slivers of the rim.</source>
        <translation>{count} Dreiecke von {total}, {part:.1f} % der Oberfläche, sind schwach: fern von jedem Punkt, auf einer Linie von Punkten, oder schmale Dreiecke am Rand.</translation>
    </message>
    <message>
        <source>{denominator} cannot be the finest fraction of an inch. Use a whole number from 1 to {largest}.</source>
        <translation>{denominator} kann nicht der feinste Bruchteil eines Zolls sein. Eine ganze Zahl von 1 bis {largest} verwenden.</translation>
    </message>
    <message>
        <source>{feature} is no more in the survey.</source>
        <translation>{feature} ist nicht mehr im Aufmaß.</translation>
    </message>
    <message>
        <source>{feature} was recorded by a phone (walk {walk}): its place and height are good for some metres only.</source>
        <translation>{feature} wurde mit einem Telefon aufgenommen (Begehung {walk}): Lage und Höhe stimmen nur auf einige Meter.</translation>
    </message>
    <message>
        <source>{feature} was recorded by a phone (walk {walk}): its uncertainty is {part:.1f} % of its figure, more than the {within:.3g} % that may be priced.</source>
        <translation>{feature} wurde mit einem Telefon aufgenommen (Begehung {walk}): die Unsicherheit ist {part:.1f} % des Maßes, mehr als die {within:.3g} %, die bepreist werden dürfen.</translation>
    </message>
    <message>
        <source>{feature} was recorded by a phone (walk {walk}): its uncertainty is {part:.1f} % of its figure, within the {within:.3g} % that may be priced.</source>
        <translation>{feature} wurde mit einem Telefon aufgenommen (Begehung {walk}): die Unsicherheit ist {part:.1f} % des Maßes, innerhalb der {within:.3g} %, die bepreist werden dürfen.</translation>
    </message>
    <message>
        <source>{feature}, {what}: {measured}, allowed {allowed} ({limit})</source>
        <translation>{feature}, {what}: {measured}, erlaubt {allowed} ({limit})</translation>
    </message>
    <message>
        <source>{feature}: {value:.2f} ±{half:.3g} {unit} (95 %); {shares}.</source>
        <translation>{feature}: {value:.2f} ±{half:.3g} {unit} (95 %); {shares}.</translation>
    </message>
    <message>
        <source>{file} cannot be read as a survey: {reason}. Run the job again.</source>
        <translation>{file} ist nicht als Aufmaß lesbar: {reason}. Die Arbeit noch einmal starten.</translation>
    </message>
    <message>
        <source>{file} has a column walk, so it is a walk log, not a point list. Give it the columns walk, station, x and y.</source>
        <translation>{file} hat eine Spalte walk und ist also ein Begehungsprotokoll, keine Punktliste. Die Spalten walk, station, x und y geben.</translation>
    </message>
    <message>
        <source>{file} has a line # units. Take it out and give its sigmas in metres, then pick again: picks are kept in metres.</source>
        <translation>{file} hat eine Zeile # units. Sie entfernen und die Standardabweichungen in Metern angeben, dann noch einmal abgreifen: Abgriffe werden in Metern aufgehoben.</translation>
    </message>
    <message>
        <source>{file} has no column names, and its rows do not show which columns give a place. Put a line with the names above them, such as: number, northing, easting, elevation, description.</source>
        <translation>{file} hat keine Spaltennamen, und die Zeilen zeigen nicht, welche Spalten einen Ort geben. Eine Zeile mit den Namen darüber setzen, etwa: number, northing, easting, elevation, description.</translation>
    </message>
    <message>
        <source>{file} has no header row. Give the column names in the line above the rows.</source>
        <translation>{file} hat keine Kopfzeile. Die Spaltennamen in die Zeile über den Zeilen schreiben.</translation>
    </message>
    <message>
        <source>{file} has no limit that can be used. {first}</source>
        <translation>{file} hat keinen verwendbaren Grenzwert. {first}</translation>
    </message>
    <message>
        <source>{file} has no points, parcels, plan features, alignments or surfaces of triangles that can be read. Give a file that has.</source>
        <translation>{file} hat keine lesbaren Punkte, Parzellen, Lageobjekte, Achsen oder Oberflächen aus Dreiecken. Eine Datei angeben, die welche hat.</translation>
    </message>
    <message>
        <source>{file} has no points. Give a line with column names, and a line a point.</source>
        <translation>{file} hat keine Punkte. Eine Zeile mit Spaltennamen und eine Zeile je Punkt angeben.</translation>
    </message>
    <message>
        <source>{file} has {found} columns, but {wanted} were named: {columns}. Name each column once, and give {other} for one that is only kept.</source>
        <translation>{file} hat {found} Spalten, genannt wurden {wanted}: {columns}. Jede Spalte einmal nennen, und {other} für eine, die nur behalten wird.</translation>
    </message>
    <message>
        <source>{file} has {found} columns; more than {most} cannot be a point list.</source>
        <translation>{file} hat {found} Spalten; mehr als {most} kann keine Punktliste haben.</translation>
    </message>
    <message>
        <source>{file} has {size} bytes, more than {largest}. Split it.</source>
        <translation>{file} hat {size} Bytes, mehr als {largest}. Teilen.</translation>
    </message>
    <message>
        <source>{file} has {size} bytes; more than {largest} cannot be a log. Split it.</source>
        <translation>{file} hat {size} Bytes; mehr als {largest} kann kein Protokoll sein. Teilen.</translation>
    </message>
    <message>
        <source>{file} holds surfaces and no walk or point, so there is nothing to measure. Add the logs of the site; Read walks gives the surfaces by themselves.</source>
        <translation>{file} enthält Oberflächen, aber weder Begehung noch Punkt; es gibt nichts zu messen. Die Protokolle des Geländes hinzufügen; „Begehungen einlesen“ gibt die Oberflächen allein.</translation>
    </message>
    <message>
        <source>{file} is a table, but none that is read: no walk log, control, tapes, instruments or decisions, and no point list whose columns have names that are known. Its header is {header}. Correct the header, choose the columns before the run if it is a point list, or take the file away.</source>
        <translation>{file} ist eine Tabelle, aber keine, die gelesen wird: kein Begehungsprotokoll, keine Passpunkte, Bandmaße, Geräte oder Entscheidungen, und keine Punktliste, deren Spalten bekannte Namen haben. Die Kopfzeile ist {header}. Die Kopfzeile berichtigen, bei einer Punktliste vor dem Lauf die Spalten wählen oder die Datei wegnehmen.</translation>
    </message>
    <message>
        <source>{file} is empty. Give a table with a header row.</source>
        <translation>{file} ist leer. Eine Tabelle mit Kopfzeile angeben.</translation>
    </message>
    <message>
        <source>{file} is not UTF-8 and was read as Latin-1.</source>
        <translation>{file} ist kein UTF-8 und wurde als Latin-1 gelesen.</translation>
    </message>
    <message>
        <source>{file} keeps no working of row {row} of {table}: it was added after the survey was made. Measure the layer instead (Measure areas, Measure lengths).</source>
        <translation>{file} enthält keinen Rechenweg zu Zeile {row} von {table}: sie kam hinzu, nachdem das Aufmaß entstanden war. Stattdessen den Layer messen (Flächen messen, Längen messen).</translation>
    </message>
    <message>
        <source>{file} lies among the files, has numbers in most of its lines, and was not read: no kind of table was recognised.</source>
        <translation>{file} liegt bei den Dateien, hat in den meisten Zeilen Zahlen und wurde nicht gelesen: keine Art von Tabelle wurde erkannt.</translation>
    </message>
    <message>
        <source>{file} starts as {encoding} but byte {byte} does not fit. Save it again as UTF-8 CSV.</source>
        <translation>{file} beginnt als {encoding}, aber Byte {byte} passt nicht dazu. Noch einmal als CSV in UTF-8 speichern.</translation>
    </message>
    <message>
        <source>{file} was written before workings were kept. Run the job again.</source>
        <translation>{file} wurde geschrieben, bevor Rechenwege aufgehoben wurden. Die Arbeit noch einmal starten.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: faces of the surface {feature} that cannot be read and are left out: {count}, such as &quot;{cell}&quot;.</source>
        <translation>{file}, ab Zeile {line}: Dreiecke der Oberfläche {feature}, die nicht lesbar sind und weggelassen werden: {count}, etwa „{cell}“.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: faces of the surface {feature} that stand there a second time and are left out: {count}.</source>
        <translation>{file}, ab Zeile {line}: Dreiecke der Oberfläche {feature}, die dort ein zweites Mal stehen und weggelassen werden: {count}.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: more notes: {found}.</source>
        <translation>{file}, ab Zeile {line}: weitere Hinweise: {found}.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: more points of a name that stands there already, at other coordinates: {count}.</source>
        <translation>{file}, ab Zeile {line}: weitere Punkte mit einem Namen, der dort schon steht, bei anderen Koordinaten: {count}.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: of the surface {name} is not read: {names}.</source>
        <translation>{file}, ab Zeile {line}: von der Oberfläche {name} wird nicht gelesen: {names}.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: points of the surface {feature} that cannot be read: {count}, such as &quot;{cell}&quot;.</source>
        <translation>{file}, ab Zeile {line}: Punkte der Oberfläche {feature}, die nicht lesbar sind: {count}, etwa „{cell}“.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: points of the surface {feature} with the id of another one: {count}, such as {cell}; the first of each is taken.</source>
        <translation>{file}, ab Zeile {line}: Punkte der Oberfläche {feature} mit der id eines anderen: {count}, etwa {cell}; genommen wird jeweils der erste.</translation>
    </message>
    <message>
        <source>{file}, from line {line} on: {found} more lines cannot be read.</source>
        <translation>{file}, ab Zeile {line}: {found} weitere Zeilen sind nicht lesbar.</translation>
    </message>
    <message>
        <source>{file}, line 1: the encoding &quot;{encoding}&quot; is not read. Save the file as UTF-8.</source>
        <translation>{file}, Zeile 1: die Kodierung „{encoding}“ wird nicht gelesen. Die Datei als UTF-8 speichern.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column hole_in: &quot;{name}&quot; is not the name of another area, so {hole} is not deducted.</source>
        <translation>{file}, Zeile {line}, Spalte hole_in: „{name}“ ist nicht der Name einer anderen Fläche; {hole} wird nicht abgezogen.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; does not say what the limit hangs on.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ sagt nicht, wovon der Grenzwert abhängt.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is a formula, not its value.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist eine Formel, nicht ihr Wert.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is below zero.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist kleiner als null.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is beyond {largest}.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ liegt jenseits von {largest}.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not a finite number.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist keine endliche Zahl.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not a number.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist keine Zahl.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not a time.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist keine Zeit.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not above zero.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist nicht größer als null.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not from {least} to {most}.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ liegt nicht zwischen {least} und {most}.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not in degrees.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist nicht in Grad.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not one of: {words}.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist keines von: {words}.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: &quot;{cell}&quot; is not written as the first time of the walk is.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: „{cell}“ ist nicht so geschrieben wie die erste Zeit der Begehung.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: the field is blank.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: das Feld ist leer.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: the offset &quot;{cell}&quot; has no side.</source>
        <translation>{file}, Zeile {line}, Spalte {column}: der Versatz „{cell}“ hat keine Seite.</translation>
    </message>
    <message>
        <source>{file}, line {line}, key {column}: &quot;{cell}&quot; cannot be used; {words}.</source>
        <translation>{file}, Zeile {line}, Schlüssel {column}: „{cell}“ ist nicht verwendbar; {words}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; cannot be used, and there is no GGA or RMC sentence that can. Record the log anew; a receiver&apos;s binary messages are not read.</source>
        <translation>{file}, Zeile {line}: „{cell}“ ist nicht verwendbar, und es gibt keinen verwendbaren Satz GGA oder RMC. Das Protokoll neu aufnehmen; die Binärmeldungen eines Empfängers werden nicht gelesen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; cannot be used: its checksum is wrong, a field is missing or too many, or a value cannot be. Such sentences: {count}.</source>
        <translation>{file}, Zeile {line}: „{cell}“ ist nicht verwendbar: die Prüfsumme ist falsch, ein Feld fehlt oder ist zu viel, oder ein Wert ist unmöglich. Solche Sätze: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; has a number beyond {largest}.</source>
        <translation>{file}, Zeile {line}: „{cell}“ hat eine Zahl jenseits von {largest}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; has a number that is not finite.</source>
        <translation>{file}, Zeile {line}: „{cell}“ hat eine Zahl, die nicht endlich ist.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; has {found} fields where the header has {wanted}.</source>
        <translation>{file}, Zeile {line}: „{cell}“ hat {found} Felder, die Kopfzeile hat {wanted}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; is cut short in a quoted field.</source>
        <translation>{file}, Zeile {line}: „{cell}“ bricht in einem Feld mit Anführungszeichen ab.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; is in no sentence and was passed over. Such lines: {count}.</source>
        <translation>{file}, Zeile {line}: „{cell}“ steht in keinem Satz und wurde übergangen. Solche Zeilen: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; is not a point: north, east, and a height or none.</source>
        <translation>{file}, Zeile {line}: „{cell}“ ist kein Punkt: Nord, Ost, und eine Höhe oder keine.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &quot;{cell}&quot; stands below the header.</source>
        <translation>{file}, Zeile {line}: „{cell}“ steht unter der Kopfzeile.</translation>
    </message>
    <message>
        <source>{file}, line {line}: LandXML {version} is not known; it was read as 1.2.</source>
        <translation>{file}, Zeile {line}: LandXML {version} ist unbekannt; es wurde als 1.2 gelesen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV.</source>
        <translation>{file}, Zeile {line}: hier steht ein NUL-Byte, das ist kein Text. Noch einmal als CSV in UTF-8 speichern.</translation>
    </message>
    <message>
        <source>{file}, line {line}: a field that starts here cannot be read ({reason}). Close each quoted field with a quote, and double the quotes inside it.</source>
        <translation>{file}, Zeile {line}: ein Feld, das hier beginnt, ist nicht lesbar ({reason}). Jedes Feld in Anführungszeichen schließen und die Anführungszeichen darin verdoppeln.</translation>
    </message>
    <message>
        <source>{file}, line {line}: a full circle in the outline of {feature} crosses the outline at ({x:.3f}, {y:.3f}) in the survey plane.</source>
        <translation>{file}, Zeile {line}: ein Vollkreis im Umriss von {feature} kreuzt den Umriss bei ({x:.3f}, {y:.3f}) in der Aufmaßebene.</translation>
    </message>
    <message>
        <source>{file}, line {line}: a piece of the outline of {feature} is not drawn, so it has no area.</source>
        <translation>{file}, Zeile {line}: ein Stück des Umrisses von {feature} ist nicht gezeichnet; er hat daher keine Fläche.</translation>
    </message>
    <message>
        <source>{file}, line {line}: a {element} of the surface {feature} cannot be read; it starts with &quot;{cell}&quot;.</source>
        <translation>{file}, Zeile {line}: ein Element {element} der Oberfläche {feature} ist nicht lesbar; es beginnt mit „{cell}“.</translation>
    </message>
    <message>
        <source>{file}, line {line}: an offset of {feature} is larger than a curve or side of it has room for.</source>
        <translation>{file}, Zeile {line}: ein Versatz von {feature} ist größer, als eine Kurve oder Seite davon Platz hat.</translation>
    </message>
    <message>
        <source>{file}, line {line}: faces of the surface {name} that ran clockwise and were turned: {count}.</source>
        <translation>{file}, Zeile {line}: Dreiecke der Oberfläche {name}, die im Uhrzeigersinn liefen und umgedreht wurden: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: faces of the surface {name} without an area in plan, which are left out: {count}.</source>
        <translation>{file}, Zeile {line}: Dreiecke der Oberfläche {name} ohne Fläche in der Lage, die weggelassen werden: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: fixes that repeat the time of the one before from the same place, or from another talker, were passed over. Such fixes: {count}.</source>
        <translation>{file}, Zeile {line}: Positionen, die die Zeit der vorigen vom selben Ort wiederholen oder von einem anderen Sender kommen, wurden übergangen. Solche Positionen: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: fixes that the receiver reckoned, took from the keyboard or simulated (quality 6, 7 or 8) were used. Such fixes: {count}.</source>
        <translation>{file}, Zeile {line}: Positionen, die der Empfänger gekoppelt, von der Tastatur genommen oder simuliert hat (Qualität 6, 7 oder 8), wurden verwendet. Solche Positionen: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: lat &quot;{lat}&quot; and lon &quot;{lon}&quot; are no place, nor has the file any other point that can be used. Give degrees from -90 to 90 and from -180 to 180.</source>
        <translation>{file}, Zeile {line}: lat „{lat}“ und lon „{lon}“ sind kein Ort, und die Datei hat auch keinen anderen verwendbaren Punkt. Grad von -90 bis 90 und von -180 bis 180 angeben.</translation>
    </message>
    <message>
        <source>{file}, line {line}: lat &quot;{lat}&quot; and lon &quot;{lon}&quot; are no place; the point is left out.</source>
        <translation>{file}, Zeile {line}: lat „{lat}“ und lon „{lon}“ sind kein Ort; der Punkt wird weggelassen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: lon and lat are degrees, but the CRS {crs} is projected. Name the columns x, y, or give the CRS of the degrees.</source>
        <translation>{file}, Zeile {line}: lon und lat sind Grad, aber das KBS {crs} ist projiziert. Die Spalten x, y nennen oder das KBS der Grade angeben.</translation>
    </message>
    <message>
        <source>{file}, line {line}: more than {most} elements stand within one another. Write the file anew.</source>
        <translation>{file}, Zeile {line}: mehr als {most} Elemente stehen ineinander. Die Datei neu schreiben.</translation>
    </message>
    <message>
        <source>{file}, line {line}: no day is stated with the times; they count from the first fix.</source>
        <translation>{file}, Zeile {line}: zu den Zeiten ist kein Tag angegeben; sie zählen von der ersten Position an.</translation>
    </message>
    <message>
        <source>{file}, line {line}: nothing is drawn of {feature}: it has no two stations with a way between them.</source>
        <translation>{file}, Zeile {line}: von {feature} wird nichts gezeichnet: es hat keine zwei Standpunkte mit einem Weg dazwischen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: nothing lies between at_least and at_most.</source>
        <translation>{file}, Zeile {line}: zwischen at_least und at_most liegt nichts.</translation>
    </message>
    <message>
        <source>{file}, line {line}: one element, tag or comment has more than {most} characters. Split it.</source>
        <translation>{file}, Zeile {line}: ein Element, Tag oder Kommentar hat mehr als {most} Zeichen. Teilen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: places in RMC at times without a GGA fix were not used. Such sentences: {count}.</source>
        <translation>{file}, Zeile {line}: Orte in RMC zu Zeiten ohne eine Position in GGA wurden nicht verwendet. Solche Sätze: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: points without a fix were passed over. Such points: {count}.</source>
        <translation>{file}, Zeile {line}: Punkte ohne Positionslösung wurden übergangen. Solche Punkte: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: sentences without a checksum were used; a wrong digit would not show. Such sentences: {count}.</source>
        <translation>{file}, Zeile {line}: Sätze ohne Prüfsumme wurden verwendet; eine falsche Ziffer würde nicht auffallen. Solche Sätze: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: sentences without a fix were passed over. Such sentences: {count}.</source>
        <translation>{file}, Zeile {line}: Sätze ohne Positionslösung wurden übergangen. Solche Sätze: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: station {station} of walk {walk} stands here again, first in line {first}.</source>
        <translation>{file}, Zeile {line}: Standpunkt {station} der Begehung {walk} steht hier noch einmal, zuerst in Zeile {first}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the Curve of {feature} has radii from {least:.4f} to {most:.4f} m (centre to start, centre to end, as stated).</source>
        <translation>{file}, Zeile {line}: die Curve von {feature} hat Radien von {least:.4f} bis {most:.4f} m (Mittelpunkt zum Anfang, Mittelpunkt zum Ende, wie angegeben).</translation>
    </message>
    <message>
        <source>{file}, line {line}: the Curve of {feature} is {drawn:.3f} m long by its points but {stated:.3f} m by its {part}.</source>
        <translation>{file}, Zeile {line}: die Curve von {feature} ist nach ihren Punkten {drawn:.3f} m lang, nach ihrem {part} aber {stated:.3f} m.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the Curve of {feature} turns neither cw nor ccw but &quot;{cell}&quot;.</source>
        <translation>{file}, Zeile {line}: die Curve von {feature} dreht weder cw noch ccw, sondern „{cell}“.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the XML is wrong from here on ({reason}).</source>
        <translation>{file}, Zeile {line}: das XML ist von hier an falsch ({reason}).</translation>
    </message>
    <message>
        <source>{file}, line {line}: the coordinate system {name} is no projected one with an EPSG code, or it is moved or turned; the coordinates are taken as a plane of their own.</source>
        <translation>{file}, Zeile {line}: das Koordinatensystem {name} ist kein projiziertes mit EPSG-Code, oder es ist verschoben oder gedreht; die Koordinaten gelten als eine eigene Ebene.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} does not come to a `curve-end`; its last `curve` station {end} was taken for its end.</source>
        <translation>{file}, Zeile {line}: die Kurve von {feature} ab Standpunkt {start} kommt zu keinem `curve-end`; ihr letzter Standpunkt {end} mit `curve` wurde als Ende genommen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} has a radius of only {size:.3f} m.</source>
        <translation>{file}, Zeile {line}: die Kurve von {feature} von Standpunkt {start} bis {end} hat einen Radius von nur {size:.3f} m.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} has no passing point.</source>
        <translation>{file}, Zeile {line}: die Kurve von {feature} von Standpunkt {start} bis {end} hat keinen Durchgangspunkt.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} is straight within what its stations can be trusted.</source>
        <translation>{file}, Zeile {line}: die Kurve von {feature} von Standpunkt {start} bis {end} ist gerade, soweit ihren Standpunkten zu trauen ist.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} misses station {missed} by {size:.3f} m, where one sigma is {sigma:.3f} m.</source>
        <translation>{file}, Zeile {line}: die Kurve von {feature} von Standpunkt {start} bis {end} verfehlt Standpunkt {missed} um {size:.3f} m, eine Standardabweichung ist {sigma:.3f} m.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the curve of {feature} from station {start} to {end} turns by {size:.1f} degrees without closing.</source>
        <translation>{file}, Zeile {line}: die Kurve von {feature} von Standpunkt {start} bis {end} dreht um {size:.1f} Grad, ohne zu schließen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the file begins with &lt;{name}&gt;, not with &lt;gpx&gt;. Give a GPX file.</source>
        <translation>{file}, Zeile {line}: die Datei beginnt mit &lt;{name}&gt;, nicht mit &lt;gpx&gt;. Eine GPX-Datei angeben.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the file breaks off before its first point ({reason}). Give the whole file.</source>
        <translation>{file}, Zeile {line}: die Datei bricht vor ihrem ersten Punkt ab ({reason}). Die ganze Datei angeben.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the file breaks off here.</source>
        <translation>{file}, Zeile {line}: hier bricht die Datei ab.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the file declares a document type or an entity (&lt;!DOCTYPE, &lt;!ENTITY), which can make a small file boundless. Take the declaration out.</source>
        <translation>{file}, Zeile {line}: die Datei vereinbart einen Dokumenttyp oder eine Entität (&lt;!DOCTYPE, &lt;!ENTITY), die eine kleine Datei grenzenlos machen kann. Die Vereinbarung entfernen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the header of a walk log stands here, but its columns are not separated by commas, semicolons or tabs. Separate them so.</source>
        <translation>{file}, Zeile {line}: hier steht die Kopfzeile eines Begehungsprotokolls, aber ihre Spalten sind nicht mit Kommas, Semikolons oder Tabulatoren getrennt. So trennen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the header stands here again.</source>
        <translation>{file}, Zeile {line}: hier steht die Kopfzeile noch einmal.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the hole {hole} sticks out of {area} by {out:.3f} m at ({x:.3f}, {y:.3f}).</source>
        <translation>{file}, Zeile {line}: die Aussparung {hole} ragt bei ({x:.3f}, {y:.3f}) um {out:.3f} m aus {area} hinaus.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the limit has neither at_most nor at_least.</source>
        <translation>{file}, Zeile {line}: der Grenzwert hat weder at_most noch at_least.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the linearUnit &quot;{cell}&quot; is not one unit that is known.</source>
        <translation>{file}, Zeile {line}: linearUnit „{cell}“ ist keine bekannte Einheit.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the numbers of the {element} are not {size} to a point; it starts with &quot;{cell}&quot;.</source>
        <translation>{file}, Zeile {line}: die Zahlen von {element} sind nicht {size} je Punkt; es beginnt mit „{cell}“.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the offset of {offset:.3f} m is larger than {feature} has room for at ({x:.3f}, {y:.3f}) in the survey plane: its outline comes out turned about.</source>
        <translation>{file}, Zeile {line}: der Versatz von {offset:.3f} m ist größer, als {feature} bei ({x:.3f}, {y:.3f}) in der Aufmaßebene Platz hat: der Umriss kommt umgekehrt heraus.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outermost element is {name}, not LandXML. Give a LandXML file.</source>
        <translation>{file}, Zeile {line}: das äußerste Element ist {name}, nicht LandXML. Eine LandXML-Datei angeben.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane once it is joined with its neighbours.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} kreuzt sich selbst bei ({x:.3f}, {y:.3f}) in der Aufmaßebene, wenn er mit seinen Nachbarn verbunden ist.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, where the way from station {a} to {b} meets the way from {c} to {d}.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} kreuzt sich selbst bei ({x:.3f}, {y:.3f}) in der Aufmaßebene, wo der Weg von Standpunkt {a} nach {b} auf den Weg von {c} nach {d} trifft.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} ends {gap:.3f} m from where it began; it was closed by a direct side.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} endet {gap:.3f} m von seinem Anfang; er wurde mit einer geraden Seite geschlossen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} goes round the same ground {times} times.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} umläuft denselben Boden {times}-mal.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} has {count} different points, so it has no area.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} hat {count} verschiedene Punkte und daher keine Fläche.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} is open here by {gap:.3f} m, so it has no area.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} ist hier um {gap:.3f} m offen und hat daher keine Fläche.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the outline of {feature} lies on one line, so it has no area.</source>
        <translation>{file}, Zeile {line}: der Umriss von {feature} liegt auf einer Geraden und hat daher keine Fläche.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the point &quot;{cell}&quot; refers to itself, perhaps by way of others.</source>
        <translation>{file}, Zeile {line}: der Punkt „{cell}“ verweist auf sich selbst, vielleicht über andere.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the point &quot;{cell}&quot; that is referred to does not stand in the file.</source>
        <translation>{file}, Zeile {line}: der Punkt „{cell}“, auf den verwiesen wird, steht nicht in der Datei.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the point list has no column names; its first row is {row}.</source>
        <translation>{file}, Zeile {line}: die Punktliste hat keine Spaltennamen; ihre erste Zeile ist {row}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the point {name} stands here again at other coordinates, first in line {first}; it goes on as {station}.</source>
        <translation>{file}, Zeile {line}: der Punkt {name} steht hier noch einmal bei anderen Koordinaten, zuerst in Zeile {first}; er geht als {station} weiter.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the surface is said to cover {stated:.10g} in plan; its triangles cover {area:.10g} (in the square of the file&apos;s unit of length).</source>
        <translation>{file}, Zeile {line}: die Oberfläche soll in der Lage {stated:.10g} bedecken; ihre Dreiecke bedecken {area:.10g} (im Quadrat der Längeneinheit der Datei).</translation>
    </message>
    <message>
        <source>{file}, line {line}: the surface {name} is not read: it has no triangles but {kind}.</source>
        <translation>{file}, Zeile {line}: die Oberfläche {name} wird nicht gelesen: sie hat keine Dreiecke, sondern {kind}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the surface {name} is not read: no face of it can be used.</source>
        <translation>{file}, Zeile {line}: die Oberfläche {name} wird nicht gelesen: keines ihrer Dreiecke ist verwendbar.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the tape runs from {mark} to {mark}.</source>
        <translation>{file}, Zeile {line}: das Bandmaß läuft von {mark} nach {mark}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the time of station {station} of walk {walk} is {back:.3f} s before the time of station {other}.</source>
        <translation>{file}, Zeile {line}: die Zeit von Standpunkt {station} der Begehung {walk} liegt {back:.3f} s vor der Zeit von Standpunkt {other}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the units &quot;{cell}&quot; are not known.</source>
        <translation>{file}, Zeile {line}: die Einheiten „{cell}“ sind unbekannt.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the units &quot;{cell}&quot; are not known. Write one of: {units}.</source>
        <translation>{file}, Zeile {line}: die Einheiten „{cell}“ sind unbekannt. Eine schreiben von: {units}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the {element} of {feature} has no {part}.</source>
        <translation>{file}, Zeile {line}: {element} von {feature} hat kein {part}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the {element} {feature} breaks off and is left out.</source>
        <translation>{file}, Zeile {line}: {element} {feature} bricht ab und wird weggelassen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: there are more than {most} elements. Split the file.</source>
        <translation>{file}, Zeile {line}: es sind mehr als {most} Elemente. Die Datei teilen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: this is not XML ({reason}). Give a whole file of the kind that its name says.</source>
        <translation>{file}, Zeile {line}: das ist kein XML ({reason}). Eine ganze Datei der Art angeben, die ihr Name nennt.</translation>
    </message>
    <message>
        <source>{file}, line {line}: times without a zone were taken as UTC. Such times: {count}.</source>
        <translation>{file}, Zeile {line}: Zeiten ohne Zone wurden als UTC genommen. Solche Zeiten: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: units is &quot;{cell}&quot;, but the header says {unit}. Keep one of the two.</source>
        <translation>{file}, Zeile {line}: units ist „{cell}“, aber die Kopfzeile sagt {unit}. Eines von beiden behalten.</translation>
    </message>
    <message>
        <source>{file}, line {line}: walk {walk} stands here again, first in {other}, line {first}.</source>
        <translation>{file}, Zeile {line}: Begehung {walk} steht hier noch einmal, zuerst in {other}, Zeile {first}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: what stands in extensions was not used. Such elements: {count}.</source>
        <translation>{file}, Zeile {line}: was in extensions steht, wurde nicht verwendet. Solche Elemente: {count}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} goes on {gap:.3f} m from where the piece before ended; an outline is closed there by a direct side, of a length nothing is drawn.</source>
        <translation>{file}, Zeile {line}: {feature} geht {gap:.3f} m von der Stelle weiter, an der das Stück davor endete; ein Umriss wird dort mit einer geraden Seite geschlossen, bei einer Länge wird nichts gezeichnet.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} has a {element}, which is not drawn.</source>
        <translation>{file}, Zeile {line}: {feature} hat ein Element {element}, das nicht gezeichnet wird.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} has no CoordGeom and is not read.</source>
        <translation>{file}, Zeile {line}: {feature} hat keine CoordGeom und wird nicht gelesen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {feature} stands here again, first in {other}, line {first}.</source>
        <translation>{file}, Zeile {line}: {feature} steht hier noch einmal, zuerst in {other}, Zeile {first}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole} and {other}, both holes of {area}, overlap by {overlap:.3f} m2 at ({x:.3f}, {y:.3f}) in the survey plane, which would be deducted twice.</source>
        <translation>{file}, Zeile {line}: {hole} und {other}, beide Aussparungen von {area}, überlappen sich um {overlap:.3f} m2 bei ({x:.3f}, {y:.3f}) in der Aufmaßebene; das würde zweimal abgezogen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it alone, but it lies inside {others} too.</source>
        <translation>{file}, Zeile {line}: {hole} liegt in {area} und wurde nur als deren Aussparung genommen, liegt aber auch in {others}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it.</source>
        <translation>{file}, Zeile {line}: {hole} liegt in {area} und wurde als Aussparung davon genommen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {hole}, a hole of {area}, cannot be measured yet ({code}), so neither can {area}.</source>
        <translation>{file}, Zeile {line}: {hole}, eine Aussparung von {area}, ist noch nicht messbar ({code}), und daher auch {area} nicht.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {key} is &quot;{cell}&quot; here but &quot;{first}&quot; in line {other}. Keep one of the two.</source>
        <translation>{file}, Zeile {line}: {key} ist hier „{cell}“, in Zeile {other} aber „{first}“. Eines von beiden behalten.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {mark} has neither a map point nor a height.</source>
        <translation>{file}, Zeile {line}: {mark} hat weder Kartenpunkt noch Höhe.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {mark} has one of {columns} without the other.</source>
        <translation>{file}, Zeile {line}: {mark} hat eines von {columns} ohne das andere.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {mark} stands here again; it is already in line {first}.</source>
        <translation>{file}, Zeile {line}: {mark} steht hier noch einmal; schon in Zeile {first}.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {one} and {other} lie over each other by {overlap:.3f} m2 at ({x:.3f}, {y:.3f}) in the survey plane, and both count it.</source>
        <translation>{file}, Zeile {line}: {one} und {other} liegen bei ({x:.3f}, {y:.3f}) in der Aufmaßebene um {overlap:.3f} m2 übereinander, und beide zählen das.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {one} and {other} run along each other for {length:.3f} m, at most {gap:.3f} m apart and {over:.3f} m over each other, which is within what their stations can be trusted to.</source>
        <translation>{file}, Zeile {line}: {one} und {other} laufen {length:.3f} m aneinander entlang, höchstens {gap:.3f} m auseinander und {over:.3f} m übereinander; das liegt in dem, was ihren Standpunkten zuzutrauen ist.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {second} goes over the same ground as {first}, and the two lie {distance:.3f} m apart at station {station}; {allowed:.3f} m (95 %) would be expected.</source>
        <translation>{file}, Zeile {line}: {second} geht über denselben Boden wie {first}, und beide liegen am Standpunkt {station} {distance:.3f} m auseinander; zu erwarten wären {allowed:.3f} m (95 %).</translation>
    </message>
    <message>
        <source>{file}: column {number} of the header has no name. Name it.</source>
        <translation>{file}: Spalte {number} der Kopfzeile hat keinen Namen. Benennen.</translation>
    </message>
    <message>
        <source>{file}: longitude and latitude are in degrees, but the CRS {crs} is not. Name a geographic CRS, such as EPSG:4326, in the line crs.</source>
        <translation>{file}: longitude und latitude sind in Grad, das KBS {crs} aber nicht. In der Zeile crs ein geographisches KBS wie EPSG:4326 nennen.</translation>
    </message>
    <message>
        <source>{file}: none of its {count} points has a fix (the first in line {line}). Record it under open sky.</source>
        <translation>{file}: keiner der {count} Punkte hat eine Positionslösung (der erste in Zeile {line}). Unter freiem Himmel aufnehmen.</translation>
    </message>
    <message>
        <source>{file}: none of its {count} sentences with a position has a fix (the first in line {line}). Record it under open sky.</source>
        <translation>{file}: keiner der {count} Sätze mit einem Ort hat eine Positionslösung (der erste in Zeile {line}). Unter freiem Himmel aufnehmen.</translation>
    </message>
    <message>
        <source>{file}: not read: {names}.</source>
        <translation>{file}: nicht gelesen: {names}.</translation>
    </message>
    <message>
        <source>{file}: other sentences were passed over: {names}.</source>
        <translation>{file}: andere Sätze wurden übergangen: {names}.</translation>
    </message>
    <message>
        <source>{file}: the CRS &quot;{crs}&quot; of the log is not known, or is of no place on the earth. Give an authority code such as EPSG:25831, or take the line out if x and y are in a frame of the walk&apos;s own.</source>
        <translation>{file}: das KBS „{crs}“ des Protokolls ist unbekannt oder gehört zu keinem Ort auf der Erde. Einen Code wie EPSG:25831 angeben, oder die Zeile entfernen, wenn x und y in einem eigenen Rahmen der Begehung sind.</translation>
    </message>
    <message>
        <source>{file}: the CRS &quot;{crs}&quot; that was chosen for it is not known. Give an authority code such as EPSG:25831, or {none} for a plane of its own.</source>
        <translation>{file}: das dafür gewählte KBS „{crs}“ ist unbekannt. Einen Code wie EPSG:25831 angeben, oder {none} für eine eigene Ebene.</translation>
    </message>
    <message>
        <source>{file}: the CRS {crs} that was chosen for it is no projected one with an EPSG code. Choose such a one, or {none} for a plane of its own.</source>
        <translation>{file}: das dafür gewählte KBS {crs} ist kein projiziertes mit EPSG-Code. Ein solches wählen, oder {none} für eine eigene Ebene.</translation>
    </message>
    <message>
        <source>{file}: the column &quot;{column}&quot; is in {unit}, which is not read. Give it in one of: {units}.</source>
        <translation>{file}: die Spalte „{column}“ ist in {unit}, was nicht gelesen wird. Sie in einer angeben von: {units}.</translation>
    </message>
    <message>
        <source>{file}: the columns &quot;{columns}&quot; cannot be used. Name each column of the file once, with easting and northing or longitude and latitude among them; the words are {words}, and {other} for a column that is only kept.</source>
        <translation>{file}: die Spalten „{columns}“ sind nicht verwendbar. Jede Spalte der Datei einmal nennen, darunter easting und northing oder longitude und latitude; die Wörter sind {words}, und {other} für eine Spalte, die nur behalten wird.</translation>
    </message>
    <message>
        <source>{file}: the columns were chosen, so its header is not used: {names}.</source>
        <translation>{file}: die Spalten wurden gewählt, daher gilt ihre Kopfzeile nicht: {names}.</translation>
    </message>
    <message>
        <source>{file}: the control has columns for x, y and for lon, lat. Keep one of the two pairs.</source>
        <translation>{file}: die Passpunkte haben Spalten für x, y und für lon, lat. Eines der beiden Paare behalten.</translation>
    </message>
    <message>
        <source>{file}: the control needs the columns mark and x, y (or lon, lat, or z alone); it has {header}. Name the columns so.</source>
        <translation>{file}: die Passpunkte brauchen die Spalten mark und x, y (oder lon, lat, oder z allein); vorhanden ist {header}. Die Spalten so benennen.</translation>
    </message>
    <message>
        <source>{file}: the coordinates look like those of a map, but no CRS is stated. Their lengths were taken for ground lengths; map lengths can be off by 0.1 % and areas by 0.2 %.</source>
        <translation>{file}: die Koordinaten sehen nach denen einer Karte aus, aber es ist kein KBS angegeben. Ihre Längen gelten als Längen am Boden; Kartenlängen können um 0,1 % und Flächen um 0,2 % abweichen.</translation>
    </message>
    <message>
        <source>{file}: the decisions have no column {missing}. Their header needs finding, place and answer; it has {header}.</source>
        <translation>{file}: den Entscheidungen fehlt die Spalte {missing}. Ihre Kopfzeile braucht finding, place und answer; vorhanden ist {header}.</translation>
    </message>
    <message>
        <source>{file}: the header gives the coordinates in {unit}, but the CRS {crs} has {has}. Correct the header, or the line crs.</source>
        <translation>{file}: die Kopfzeile gibt die Koordinaten in {unit}, das KBS {crs} aber hat {has}. Die Kopfzeile oder die Zeile crs berichtigen.</translation>
    </message>
    <message>
        <source>{file}: the header has {found} columns; more than {most} cannot be a table of ours.</source>
        <translation>{file}: die Kopfzeile hat {found} Spalten; mehr als {most} kann keine unserer Tabellen haben.</translation>
    </message>
    <message>
        <source>{file}: the header names two units, {one} and {two}. Give coordinates and heights in one.</source>
        <translation>{file}: die Kopfzeile nennt zwei Einheiten, {one} und {two}. Koordinaten und Höhen in einer angeben.</translation>
    </message>
    <message>
        <source>{file}: the instrument {name} stands in another file too. Keep it in one.</source>
        <translation>{file}: das Gerät {name} steht auch in einer anderen Datei. Es in einer führen.</translation>
    </message>
    <message>
        <source>{file}: the instruments have no column instrument; the header has {header}.</source>
        <translation>{file}: den Geräten fehlt die Spalte instrument; die Kopfzeile hat {header}.</translation>
    </message>
    <message>
        <source>{file}: the limits have no column {missing}. Their header needs limit, applies_to, quantity and unit; it has {header}.</source>
        <translation>{file}: den Grenzwerten fehlt die Spalte {missing}. Ihre Kopfzeile braucht limit, applies_to, quantity und unit; vorhanden ist {header}.</translation>
    </message>
    <message>
        <source>{file}: the places of the spots of walk {walk} ({count}) come from a phone and are good for some metres; their heights are left out.</source>
        <translation>{file}: die Lage der Einzelpunkte der Begehung {walk} ({count}) kommt von einem Telefon und stimmt auf einige Meter; ihre Höhen werden weggelassen.</translation>
    </message>
    <message>
        <source>{file}: the point list has a header but no points. Give a row a point.</source>
        <translation>{file}: die Punktliste hat eine Kopfzeile, aber keine Punkte. Jedem Punkt eine Zeile geben.</translation>
    </message>
    <message>
        <source>{file}: the point list has no two columns that give a place. Its header needs easting and northing, x and y, or longitude and latitude; it has {header}. Name them, or choose the columns.</source>
        <translation>{file}: die Punktliste hat keine zwei Spalten, die einen Ort geben. Ihre Kopfzeile braucht easting und northing, x und y, oder longitude und latitude; vorhanden ist {header}. Sie benennen oder die Spalten wählen.</translation>
    </message>
    <message>
        <source>{file}: the points of {walk} lie outside the area of {crs} as recorded, and inside with northing and easting exchanged.</source>
        <translation>{file}: die Punkte von {walk} liegen, wie aufgenommen, außerhalb des Gebiets von {crs}, und innerhalb, wenn northing und easting getauscht sind.</translation>
    </message>
    <message>
        <source>{file}: the stations of walk {walk} lie outside what the CRS {crs} can hold. Check the CRS, the unit and the order of the columns x (east or longitude) and y (north or latitude).</source>
        <translation>{file}: die Standpunkte der Begehung {walk} liegen außerhalb dessen, was das KBS {crs} fassen kann. KBS, Einheit und Reihenfolge der Spalten x (Ost oder Länge) und y (Nord oder Breite) prüfen.</translation>
    </message>
    <message>
        <source>{file}: the surface {name} lies nowhere in this survey: of the two only one has a place on the map, or there is no good way between their CRSs.</source>
        <translation>{file}: die Oberfläche {name} liegt nirgends in diesem Aufmaß: nur eines von beiden hat einen Ort auf der Karte, oder es gibt keinen guten Weg zwischen ihren KBS.</translation>
    </message>
    <message>
        <source>{file}: the tapes have no column {missing}. Their header needs from, to and distance; it has {header}.</source>
        <translation>{file}: den Bandmaßen fehlt die Spalte {missing}. Ihre Kopfzeile braucht from, to und distance; vorhanden ist {header}.</translation>
    </message>
    <message>
        <source>{file}: the track {feature} ends {gap:.1f} m from where it began; it was taken as a way.</source>
        <translation>{file}: die Spur {feature} endet {gap:.1f} m von ihrem Anfang; sie wurde als Weg genommen.</translation>
    </message>
    <message>
        <source>{file}: the units &quot;{cell}&quot; that were chosen for it are not read. Choose one of: {units}.</source>
        <translation>{file}: die dafür gewählten Einheiten „{cell}“ werden nicht gelesen. Eine wählen von: {units}.</translation>
    </message>
    <message>
        <source>{file}: the units are not given.</source>
        <translation>{file}: die Einheiten sind nicht angegeben.</translation>
    </message>
    <message>
        <source>{file}: the walk log has a header but no stations. Give a row a station.</source>
        <translation>{file}: das Begehungsprotokoll hat eine Kopfzeile, aber keine Standpunkte. Einer Zeile einen Standpunkt geben.</translation>
    </message>
    <message>
        <source>{file}: the walk log has no column {missing}. Its header needs walk, station, x and y; it has {header}.</source>
        <translation>{file}: dem Begehungsprotokoll fehlt die Spalte {missing}. Seine Kopfzeile braucht walk, station, x und y; vorhanden ist {header}.</translation>
    </message>
    <message>
        <source>{file}: there is no GGA or RMC sentence of NMEA 0183 in it. Let the receiver write one of them.</source>
        <translation>{file}: darin ist kein Satz GGA oder RMC von NMEA 0183. Den Empfänger einen davon schreiben lassen.</translation>
    </message>
    <message>
        <source>{file}: there is no point (trkpt, rtept or wpt) in it. Give a GPX file with one.</source>
        <translation>{file}: darin ist kein Punkt (trkpt, rtept oder wpt). Eine GPX-Datei mit einem angeben.</translation>
    </message>
    <message>
        <source>{file}: unknown columns are kept as they are: {names}.</source>
        <translation>{file}: unbekannte Spalten bleiben, wie sie sind: {names}.</translation>
    </message>
    <message>
        <source>{file}: unknown keys are kept as they are: {names}.</source>
        <translation>{file}: unbekannte Schlüssel bleiben, wie sie sind: {names}.</translation>
    </message>
    <message>
        <source>{file}: {key} chosen for this run: {chosen}; the file says: {said}.</source>
        <translation>{file}: {key} für diesen Lauf gewählt: {chosen}; die Datei sagt: {said}.</translation>
    </message>
    <message>
        <source>{file}: {table} has no row {row}. Choose it again.</source>
        <translation>{file}: {table} hat keine Zeile {row}. Sie neu wählen.</translation>
    </message>
    <message>
        <source>{file}: {what} were chosen for it, but it is: {kind}, which has none to choose. Take the choice back.</source>
        <translation>{file}: {what} wurden dafür gewählt, die Datei ist aber: {kind}, wo es nichts zu wählen gibt. Die Wahl zurücknehmen.</translation>
    </message>
    <message>
        <source>{folder} cannot be made: {reason}. Name the survey elsewhere.</source>
        <translation>{folder} lässt sich nicht anlegen: {reason}. Für das Aufmaß einen anderen Ort nennen.</translation>
    </message>
    <message>
        <source>{group}: {cause}</source>
        <translation>{group}: {cause}</translation>
    </message>
    <message>
        <source>{item}: {features}</source>
        <translation>{item}: {features}</translation>
    </message>
    <message>
        <source>{label}...</source>
        <translation>{label}...</translation>
    </message>
    <message>
        <source>{layer} has no figure {column} in row {row}. Choose a row of a layer that was measured.</source>
        <translation>{layer} hat in Zeile {row} kein Maß {column}. Eine Zeile eines gemessenen Layers wählen.</translation>
    </message>
    <message>
        <source>{layer} holds no triangles. Choose a layer of triangles with heights, or a mesh, as a surface.</source>
        <translation>{layer} enthält keine Dreiecke. Einen Layer aus Dreiecken mit Höhen, oder ein Netz, als Oberfläche wählen.</translation>
    </message>
    <message>
        <source>{layer} holds no triangles. Choose layers of triangles with heights, or meshes, as surfaces.</source>
        <translation>{layer} enthält keine Dreiecke. Layer aus Dreiecken mit Höhen, oder Netze, als Oberflächen wählen.</translation>
    </message>
    <message>
        <source>{layer}, row {row}: The line has no length. Draw it again, or delete the row.</source>
        <translation>{layer}, Zeile {row}: Die Linie hat keine Länge. Neu zeichnen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>{layer}, row {row}: There is no geometry. Draw it, or delete the row.</source>
        <translation>{layer}, Zeile {row}: Es ist keine Geometrie da. Zeichnen oder die Zeile löschen.</translation>
    </message>
    <message>
        <source>{layer}, row {row}: a breakline has a vertex without a height. Give each vertex one (z), or take the line as boundary or void.</source>
        <translation>{layer}, Zeile {row}: eine Bruchkante hat einen Stützpunkt ohne Höhe. Jedem Stützpunkt eine geben (z) oder die Linie als Begrenzung oder Aussparung nehmen.</translation>
    </message>
    <message>
        <source>{layer}, row {row}: a point has no height. Give it one (z, or a column of heights), or leave it out.</source>
        <translation>{layer}, Zeile {row}: ein Punkt hat keine Höhe. Ihm eine geben (z, oder eine Spalte mit Höhen) oder ihn weglassen.</translation>
    </message>
    <message>
        <source>{layer}, row {row}: this is neither a line nor an area. Choose a layer of lines or areas.</source>
        <translation>{layer}, Zeile {row}: das ist weder eine Linie noch eine Fläche. Einen Layer aus Linien oder Flächen wählen.</translation>
    </message>
    <message>
        <source>{layer}, row {row}: this is no triangle. Choose a layer whose polygons have three corners each, or build a surface from it.</source>
        <translation>{layer}, Zeile {row}: das ist kein Dreieck. Einen Layer wählen, dessen Polygone je drei Ecken haben, oder eine Oberfläche daraus bilden.</translation>
    </message>
    <message>
        <source>{layer}: all heights are 0, as many programs write it where nobody levelled. Give the heights as z, or choose the column that holds them.</source>
        <translation>{layer}: alle Höhen sind 0, wie viele Programme es schreiben, wo niemand Höhen gemessen hat. Die Höhen als z angeben oder die Spalte wählen, die sie enthält.</translation>
    </message>
    <message>
        <source>{left:.2f} m of it have no ground of the surface under their whole width.</source>
        <translation>{left:.2f} m davon haben nicht unter ihrer ganzen Breite Boden der Oberfläche.</translation>
    </message>
    <message>
        <source>{left:.2f} m2 of it do not lie on both surfaces and are left out. Extend the surfaces, or accept it.</source>
        <translation>{left:.2f} m2 davon liegen nicht auf beiden Oberflächen und werden ausgelassen. Die Oberflächen weiter ausdehnen oder es annehmen.</translation>
    </message>
    <message>
        <source>{left:.2f} m2 of it do not lie on the surface and are left out.</source>
        <translation>{left:.2f} m2 davon liegen nicht auf der Oberfläche und werden ausgelassen.</translation>
    </message>
    <message>
        <source>{left:.2f} m2 of it do not lie on the surface and are left out. Extend the surface, or accept it.</source>
        <translation>{left:.2f} m2 davon liegen nicht auf der Oberfläche und werden ausgelassen. Die Oberfläche weiter ausdehnen oder es annehmen.</translation>
    </message>
    <message>
        <source>{length} is not a length that can be written in feet and inches.</source>
        <translation>{length} ist keine Länge, die sich in Fuß und Zoll schreiben lässt.</translation>
    </message>
    <message>
        <source>{level:.3f} {unit}, 95 % not known</source>
        <translation>{level:.3f} {unit}, 95 % nicht bekannt</translation>
    </message>
    <message>
        <source>{level:.3f} ± {half:.3f} {unit}</source>
        <translation>{level:.3f} ± {half:.3f} {unit}</translation>
    </message>
    <message>
        <source>{mark} in {walk}, height</source>
        <translation>{mark} in {walk}, Höhe</translation>
    </message>
    <message>
        <source>{mark} in {walk}, plan</source>
        <translation>{mark} in {walk}, Lage</translation>
    </message>
    <message>
        <source>{mark} lies off most, {size}</source>
        <translation>{mark} liegt am weitesten daneben, {size}</translation>
    </message>
    <message>
        <source>{mark}: at the &amp;ground</source>
        <translation>{mark}: am &amp;Boden</translation>
    </message>
    <message>
        <source>{name} is far too large for a table of limits. Choose another.</source>
        <translation>{name} ist viel zu groß für eine Tabelle von Grenzwerten. Eine andere wählen.</translation>
    </message>
    <message>
        <source>{name} is not given: sizes noted on site are taken from the field {column}.</source>
        <translation>{name} ist nicht angegeben: vor Ort notierte Größen werden aus dem Feld {column} genommen.</translation>
    </message>
    <message>
        <source>{name} is not loaded. Enable the plugin again.</source>
        <translation>{name} ist nicht geladen. Das Plugin neu aktivieren.</translation>
    </message>
    <message>
        <source>{name} is {value}. Give a number above 0.</source>
        <translation>{name} ist {value}. Eine Zahl größer als 0 angeben.</translation>
    </message>
    <message>
        <source>{name} of a ramp is {value}. Give a number above 0.</source>
        <translation>{name} einer Rampe ist {value}. Eine Zahl größer als 0 angeben.</translation>
    </message>
    <message>
        <source>{name} to {target}; ± is 95 %.</source>
        <translation>{name} bis {target}; ± ist 95 %.</translation>
    </message>
    <message>
        <source>{name}: none here</source>
        <translation>{name}: hier keine</translation>
    </message>
    <message>
        <source>{name}: say which column is which, or untick it.</source>
        <translation>{name}: sagen, welche Spalte welche ist, oder abwählen.</translation>
    </message>
    <message>
        <source>{name}: which column is which?</source>
        <translation>{name}: welche Spalte ist welche?</translation>
    </message>
    <message>
        <source>{name}: {count} rows have none that is 0 or more; {default:g} is taken for them.</source>
        <translation>{name}: {count} Zeilen haben keinen Wert, der 0 oder mehr ist; für sie wird {default:g} genommen.</translation>
    </message>
    <message>
        <source>{name}: {given} is no layer that can be read. Choose a layer, or a file of one.</source>
        <translation>{name}: {given} ist kein Layer, der sich lesen lässt. Einen Layer wählen, oder eine Datei davon.</translation>
    </message>
    <message>
        <source>{name}: {rule} cannot be worked out: {why}. Correct it, or give a number.</source>
        <translation>{name}: {rule} lässt sich nicht berechnen: {why}. Es berichtigen oder eine Zahl angeben.</translation>
    </message>
    <message>
        <source>{name}: {value} is given. Give a number that is 0 or more.</source>
        <translation>{name}: {value} ist angegeben. Eine Zahl angeben, die 0 oder mehr ist.</translation>
    </message>
    <message>
        <source>{now}, not {written}</source>
        <translation>{now}, nicht {written}</translation>
    </message>
    <message>
        <source>{n} answered</source>
        <translation>{n} beantwortet</translation>
    </message>
    <message>
        <source>{n} cannot tell</source>
        <translation>{n} nicht zu entscheiden</translation>
    </message>
    <message>
        <source>{n} different points make no circle. Give three or more.</source>
        <translation>{n} verschiedene Punkte ergeben keinen Kreis. Drei oder mehr angeben.</translation>
    </message>
    <message>
        <source>{n} different points make no outline. Give two or more.</source>
        <translation>{n} verschiedene Punkte ergeben keinen Umriss. Zwei oder mehr angeben.</translation>
    </message>
    <message>
        <source>{n} different points make no walked line. Give three or more.</source>
        <translation>{n} verschiedene Punkte ergeben keine begangene Linie. Drei oder mehr angeben.</translation>
    </message>
    <message>
        <source>{n} fail</source>
        <translation>{n} nicht bestanden</translation>
    </message>
    <message>
        <source>{n} marks</source>
        <translation>{n} Festpunkte</translation>
    </message>
    <message>
        <source>{n} not measured</source>
        <translation>{n} nicht gemessen</translation>
    </message>
    <message>
        <source>{n} pass</source>
        <translation>{n} bestanden</translation>
    </message>
    <message>
        <source>{n} sides without an item, {size} in all</source>
        <translation>{n} Seiten ohne Position, zusammen {size}</translation>
    </message>
    <message>
        <source>{n} that stop</source>
        <translation>{n}, die sperren</translation>
    </message>
    <message>
        <source>{n} to answer</source>
        <translation>{n} zu beantworten</translation>
    </message>
    <message>
        <source>{n} to know</source>
        <translation>{n} zur Kenntnis</translation>
    </message>
    <message>
        <source>{path} cannot be read ({reason}). Choose the table of limits again.</source>
        <translation>{path} ist nicht lesbar ({reason}). Die Tabelle der Grenzwerte neu wählen.</translation>
    </message>
    <message>
        <source>{path} cannot be read as a survey of this version ({reason}). Run the job again.</source>
        <translation>{path} ist nicht als Aufmaß dieser Version lesbar ({reason}). Die Arbeit noch einmal starten.</translation>
    </message>
    <message>
        <source>{path} cannot be read as checks of this version ({reason}). Press Check again.</source>
        <translation>{path} ist nicht als Prüfungen dieser Version lesbar ({reason}). Noch einmal „Prüfen“ drücken.</translation>
    </message>
    <message>
        <source>{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.</source>
        <translation>{path} ist nicht lesbar: {reason}. Prüfen, ob die Datei da ist und gelesen werden darf, dann noch einmal starten.</translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}.</source>
        <translation>{path} kann nicht geschrieben werden: {reason}.</translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}. Choose another folder or name.</source>
        <translation>{path} kann nicht geschrieben werden: {reason}. Einen anderen Ordner oder Namen wählen.</translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}. Close it in other programs, or choose another folder or name.</source>
        <translation>{path} kann nicht geschrieben werden: {reason}. Die Datei in anderen Programmen schließen oder einen anderen Ordner oder Namen wählen.</translation>
    </message>
    <message>
        <source>{path} gave {done} of its {total} rows: it is damaged. Export the layer to a new file, and measure that.</source>
        <translation>{path} gab {done} seiner {total} Zeilen her: die Datei ist beschädigt. Den Layer in eine neue Datei exportieren und diese messen.</translation>
    </message>
    <message>
        <source>{path} has no area of the surface {surface} with heights. Draw a boundary instead, or build it without one.</source>
        <translation>{path} hat keine Fläche der Oberfläche {surface} mit Höhen. Stattdessen eine Begrenzung zeichnen oder sie ohne eine bilden.</translation>
    </message>
    <message>
        <source>{path} holds no height of the surface {surface}. Choose another surface, or write its name into the logs&apos; column surface.</source>
        <translation>{path} enthält keine Höhe der Oberfläche {surface}. Eine andere Oberfläche wählen oder ihren Namen in die Spalte surface der Protokolle schreiben.</translation>
    </message>
    <message>
        <source>{path} holds no instrument {name}, but: {names}. Name one of them. {why}</source>
        <translation>{path} enthält kein Gerät {name}, sondern: {names}. Eines davon nennen. {why}</translation>
    </message>
    <message>
        <source>{path} holds no stations with a place. Run the job again.</source>
        <translation>{path} enthält keine Standpunkte mit einem Ort. Die Arbeit noch einmal starten.</translation>
    </message>
    <message>
        <source>{path} holds no stations. Choose a GeoPackage that Survey walks has written.</source>
        <translation>{path} enthält keine Standpunkte. Ein GeoPackage wählen, das von „Begehungen aufmessen“ geschrieben wurde.</translation>
    </message>
    <message>
        <source>{path} holds no table {table}. Give a GeoPackage that Survey walks has written.</source>
        <translation>{path} enthält keine Tabelle {table}. Ein GeoPackage angeben, das von „Begehungen aufmessen“ geschrieben wurde.</translation>
    </message>
    <message>
        <source>{path} holds no text files. Give the folder that the logs lie in.</source>
        <translation>{path} enthält keine Textdateien. Den Ordner angeben, in dem die Protokolle liegen.</translation>
    </message>
    <message>
        <source>{path} holds the layer that is read, and would be replaced. Choose another file or table for the output.</source>
        <translation>{path} enthält den Layer, der gelesen wird, und würde ersetzt. Für die Ausgabe eine andere Datei oder Tabelle wählen.</translation>
    </message>
    <message>
        <source>{path} is no survey. Choose a GeoPackage that Survey walks has written.</source>
        <translation>{path} ist kein Aufmaß. Ein GeoPackage wählen, das von „Begehungen aufmessen“ geschrieben wurde.</translation>
    </message>
    <message>
        <source>{path} is not there, or is neither a survey nor a surface. Choose a GeoPackage that Survey walks or Build surface has written, or another file or layer of triangles with heights.</source>
        <translation>{path} ist nicht da, oder ist weder ein Aufmaß noch eine Oberfläche. Ein GeoPackage wählen, das von „Begehungen aufmessen“ oder „Oberfläche bilden“ geschrieben wurde, oder eine andere Datei oder einen anderen Layer mit Dreiecken mit Höhen.</translation>
    </message>
    <message>
        <source>{path} is not there. Check the name, or choose the file again.</source>
        <translation>{path} ist nicht da. Den Namen prüfen oder die Datei neu wählen.</translation>
    </message>
    <message>
        <source>{path} or the survey before it is not placed on the map, and they name no two places alike. Place both, or name the marks alike.</source>
        <translation>{path} oder das Aufmaß davor ist nicht in die Karte eingepasst, und keine zwei Orte heißen in beiden gleich. Beide einpassen oder die Festpunkte gleich benennen.</translation>
    </message>
    <message>
        <source>{path} was named as {part}, but it holds: {kind}. Name the right file, or correct its header row.</source>
        <translation>{path} wurde als {part} genannt, enthält aber: {kind}. Die richtige Datei nennen oder ihre Kopfzeile berichtigen.</translation>
    </message>
    <message>
        <source>{path} would hold {kept} of {count} rows: this format keeps none without geometry. Choose another, such as a GeoPackage (.gpkg).</source>
        <translation>{path} würde {kept} von {count} Zeilen enthalten: dieses Format behält keine ohne Geometrie. Ein anderes wählen, etwa ein GeoPackage (.gpkg).</translation>
    </message>
    <message>
        <source>{percent:+.1f} ± {half:.1f} %</source>
        <translation>{percent:+.1f} ± {half:.1f} %</translation>
    </message>
    <message>
        <source>{points} points, {triangles} triangles, {area:.1f} {unit}²</source>
        <translation>{points} Punkte, {triangles} Dreiecke, {area:.1f} {unit}²</translation>
    </message>
    <message>
        <source>{ratio} (1 in {steep:.1f} to 1 in {flat:.1f})</source>
        <translation>{ratio} (1 : {steep:.1f} bis 1 : {flat:.1f})</translation>
    </message>
    <message>
        <source>{ratio} is not a gradient.</source>
        <translation>{ratio} ist keine Neigung.</translation>
    </message>
    <message>
        <source>{rise:+.3f} ± {half:.3f} {unit}</source>
        <translation>{rise:+.3f} ± {half:.3f} {unit}</translation>
    </message>
    <message>
        <source>{run:.2f} {unit}, {ratio}</source>
        <translation>{run:.2f} {unit}, {ratio}</translation>
    </message>
    <message>
        <source>{share:.0f} % of it rests on weak triangles. Add levels there, or draw a boundary.</source>
        <translation>{share:.0f} % davon beruhen auf schwachen Dreiecken. Dort Höhen hinzufügen oder eine Begrenzung zeichnen.</translation>
    </message>
    <message>
        <source>{survey} is a survey and {other} is none. Give two surveys, or two surfaces.</source>
        <translation>{survey} ist ein Aufmaß und {other} keines. Zwei Aufmaße angeben oder zwei Oberflächen.</translation>
    </message>
    <message>
        <source>{table} holds no figures. Choose one of: {known}.</source>
        <translation>{table} enthält keine Maße. Eine wählen von: {known}.</translation>
    </message>
    <message>
        <source>{table}.{column} is no figure that has a working. Choose one of: {known}.</source>
        <translation>{table}.{column} ist kein Maß, das einen Rechenweg hat. Eines wählen von: {known}.</translation>
    </message>
    <message>
        <source>{value} cannot be set here. Give a number from {least} to {most}.</source>
        <translation>{value} lässt sich hier nicht setzen. Eine Zahl von {least} bis {most} angeben.</translation>
    </message>
    <message>
        <source>{value}, between {low} and {high}</source>
        <translation>{value}, zwischen {low} und {high}</translation>
    </message>
    <message>
        <source>{v} vertices by {n} rows are too many to hold how each moves with each. Take them part by part.</source>
        <translation>{v} Stützpunkte mal {n} Zeilen sind zu viele, um zu behalten, wie sich jeder mit jedem bewegt. Sie Teil für Teil nehmen.</translation>
    </message>
    <message>
        <source>{walks} read, {stations} stations</source>
        <translation>{walks} gelesen, {stations} Standpunkte</translation>
    </message>
    <message>
        <source>{weak:.2f} m2 of it lie on weak triangles.</source>
        <translation>{weak:.2f} m2 davon liegen auf schwachen Dreiecken.</translation>
    </message>
    <message>
        <source>{what} {advice} Such places: {count}; the log tells the first {told}.</source>
        <translation>{what} {advice} Solche Stellen: {count}; das Laufprotokoll nennt die ersten {told}.</translation>
    </message>
    <message>
        <source>{what} ±{before:.3g} to ±{after:.3g} {unit} (95 %)</source>
        <translation>{what} ±{before:.3g} auf ±{after:.3g} {unit} (95 %)</translation>
    </message>
    <message>
        <source>{what}: {content}</source>
        <translation>{what}: {content}</translation>
    </message>
    <message>
        <source>{why}</source>
        <translation>{why}</translation>
    </message>
    <message>
        <source>±{reach} (95 %)</source>
        <translation>±{reach} (95 %)</translation>
    </message>
    <message>
        <source>±{size} at the worst station (95 %)</source>
        <translation>±{size} am schlechtesten Standpunkt (95 %)</translation>
    </message>
</context>
</TS>
